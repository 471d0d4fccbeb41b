import type { Person } from '../chart/roster.ts'
import type { Desk } from '../desk/desk.ts'
import { type Accepted, receive, receiveForClinic } from '../desk/intake.ts'
import type { Refusal } from '../rules/decision.ts'
import type { Caller } from '../rules/permissions.ts'
import { coveredBy } from '../rules/rota.ts'
import { ClinicSubmission } from '../rules/submissions.ts'
import type { Accounts } from './accounts.ts'
import type { ExportOf } from './export-of.ts'
import type { CommandName } from './manifest.ts'
import type { PictureShelf } from './picture-shelf.ts'
import type { RecordOf } from './record-of.ts'

/** What the doors are handed: the desk, and the way to start the sending once something was written. */
export type Doorway = {
  readonly desk: Desk
  /** Returns at once; what was queued goes out behind it. */
  readonly kick: () => void
  readonly accounts: Accounts
  /** A command as it is typed in this workspace, with its prefix. */
  readonly typed: (name: CommandName) => string
  readonly recordOf: RecordOf
  readonly exportOf: ExportOf
  readonly pictures: PictureShelf
}

/** Who stands at the door. */
export type At = { readonly doorway: Doorway; readonly person: Person }

/**
 * The person behind an account of the workspace, or the refusal that says whom to ask. Guests, people who have left
 * and people of connected workspaces are refused, whatever the clinic's journal says. When the workspace cannot be
 * asked, somebody whom the clinic lead has named may still answer a call or say how they are (`inDoubt: 'admit'`):
 * the platform signed the delivery, and shutting them out is the greater harm. Everything else waits.
 */
export async function personAt(
  { desk, accounts, typed }: Doorway,
  account: string,
  inDoubt: 'admit' | 'refuse' = 'refuse',
): Promise<Person | Refusal> {
  const { roster } = await desk.team()
  if (roster.people.size === 0) return nobodyYet(typed('/cover'))
  const person = roster.byAccount.get(account)
  if (!person?.active) return unknownPerson
  const seen = await accounts.look(account, desk.clock.now())
  if (!seen) return inDoubt === 'admit' ? person : notNow
  return seen.standing === 'member' ? person : outsider
}

function nobodyYet(begin: string): Refusal {
  return {
    refused: 'nobody-yet',
    words: `Nobody has been named here yet. Whoever installed me begins with the ${begin} command.`,
  }
}

const unknownPerson: Refusal = {
  refused: 'unknown-person',
  words: 'I do not know you here yet. Please ask the clinic lead to add you.',
}
const outsider: Refusal = {
  refused: 'outsider',
  words: 'I answer members of this workspace only, no guests. Please ask the clinic lead.',
}
const notNow: Refusal = {
  refused: 'not-now',
  words: 'The workspace cannot tell me now who you are. Please try again in a minute; in need, call.',
}

export function callerOf(person: Person): Caller {
  return { id: person.id, roles: person.roles }
}

/** The caller with those for whom they stand in today: what the doors ask before they show anything. */
export async function callerNow({ desk }: Doorway, person: Person): Promise<Caller> {
  return { ...callerOf(person), covers: coveredBy(await desk.team(), person.id, desk.clock.now()) }
}

const forTheClinic: ReadonlySet<unknown> = new Set(
  ClinicSubmission.options.map((option) => option.shape.kind.value),
)

/** Hands a submission about an athlete in for a person, and starts the sending when it was written. */
export async function handIn(
  doorway: Doorway,
  person: Person,
  submitted: unknown,
): Promise<Accepted | Refusal> {
  const outcome = await receive(doorway.desk, callerOf(person), submitted)
  if (!('refused' in outcome)) doorway.kick()
  return outcome
}

/** The same for whatever a form hands in: what is about the clinic goes into the clinic's journal. */
export async function handInEither(
  doorway: Doorway,
  person: Person,
  submitted: unknown,
): Promise<Accepted | { readonly done: true } | Refusal> {
  const { kind } = submitted as { readonly kind?: unknown }
  if (!forTheClinic.has(kind)) return handIn(doorway, person, submitted)
  return receiveForClinic(doorway.desk, callerOf(person), submitted)
}
