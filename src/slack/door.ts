import type { Person } from '../chart/roster.ts'
import type { Desk } from '../desk/desk.ts'
import { type Accepted, receive, receiveForClinic } from '../desk/intake.ts'
import type { Refusal } from '../rules/decision.ts'
import type { Caller } from '../rules/permissions.ts'
import { ClinicSubmission } from '../rules/submissions.ts'

/** What the doors are handed: the desk, and the way to start the sending once something was written. */
export type Doorway = {
  readonly desk: Desk
  /** Returns at once; what was queued goes out behind it. */
  readonly kick: () => void
}

/** Who stands at the door. */
export type At = { readonly doorway: Doorway; readonly person: Person }

/** The person behind an account of the workspace, or the refusal that says whom to ask. */
export async function personAt(doorway: Doorway, account: string): Promise<Person | Refusal> {
  const { roster } = await doorway.desk.team()
  const person = roster.byAccount.get(account)
  if (person?.active) return person
  return {
    refused: 'unknown-person',
    words: 'I do not know you here yet. Please ask the clinic lead to add you.',
  }
}

export function callerOf(person: Person): Caller {
  return { id: person.id, roles: person.roles }
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
