import { z } from 'zod'
import type { Clinic } from './clinic.ts'
import { Day, Instant, Zone } from './day.ts'
import { PersonId } from './signing.ts'

export const Role = z.enum(['athlete', 'coach', 'strength-coach', 'therapist', 'clinic-lead'])
export type Role = z.infer<typeof Role>

export const Person = z.object({
  id: PersonId,
  name: z.string().min(1).max(80),
  roles: z.array(Role).min(1),
  /** The account in the chat workspace. */
  chatUser: z.string().min(1).max(40),
  timeZone: Zone,
  /** False when the person has left: told nothing, refused everywhere, still named in the record. */
  active: z.boolean(),
})
export type Person = z.infer<typeof Person>

const signed = { id: z.string().min(1).max(200), author: z.string(), recordedAt: Instant }

/** The clinic's own journal: who is who, where the coaches read, which morning list went out. Append-only too. */
export const ClinicEntry = z.discriminatedUnion('kind', [
  z.object({ ...signed, kind: z.literal('person'), person: Person }),
  z.object({
    ...signed,
    kind: z.literal('place'),
    place: z.literal('coaches'),
    channel: z.string().min(1).max(40),
  }),
  z.object({ ...signed, kind: z.literal('list-posted'), day: Day }),
])
export type ClinicEntry = z.infer<typeof ClinicEntry>

/** The subject under which the clinic's own journal is kept. */
export const clinicSubject = 'clinic'

export type Roster = {
  readonly length: number
  readonly people: ReadonlyMap<string, Person>
  readonly byAccount: ReadonlyMap<string, Person>
  readonly coachesChannel: string | undefined
  /** The last day, at the clinic, for which the coaches' list was posted. */
  readonly listDay: Day | undefined
}

/** The clinic as the rules see it: its settings and its people. */
export type Team = { readonly clinic: Clinic; readonly roster: Roster }

export function readRoster(entries: readonly ClinicEntry[]): Roster {
  const people = new Map<string, Person>()
  let coachesChannel: string | undefined
  let listDay: Day | undefined
  for (const entry of entries) {
    if (entry.kind === 'person') people.set(entry.person.id, entry.person)
    else if (entry.kind === 'place') coachesChannel = entry.channel
    else listDay = entry.day
  }
  const byAccount = new Map([...people.values()].map((person) => [person.chatUser, person]))
  return { length: entries.length, people, byAccount, coachesChannel, listDay }
}

export function nameOf(team: Team, person: string): string {
  return team.roster.people.get(person)?.name ?? person
}
