import { z } from 'zod'
import { type Clinic, Hours } from './clinic.ts'
import { ClinicSettings } from './clinic-settings.ts'
import { Day, Instant, Zone } from './day.ts'
import { PersonId, Words } from './signing.ts'

export const Role = z.enum(['athlete', 'coach', 'strength-coach', 'therapist', 'clinic-lead'])
export type Role = z.infer<typeof Role>

/** What a colleague is trained for; a hand-over offers those first who fit the flag. */
export const Speciality = z.enum([
  'concussion',
  'return to sport',
  'manual therapy',
  'bone stress',
  'after surgery',
  'sports medicine',
  'mental health',
])
export type Speciality = z.infer<typeof Speciality>

export const Person = z.object({
  id: PersonId,
  name: z.string().min(1).max(80),
  roles: z.array(Role).min(1),
  /** The account in the chat workspace. */
  chatUser: z.string().min(1).max(40),
  timeZone: Zone,
  /** Their own working hours, on their own wall; absent: the clinic's. */
  hours: z.array(Hours).optional(),
  specialities: z.array(Speciality).optional(),
  /** False when the person has left: told nothing, refused everywhere, still named in the record. */
  active: z.boolean(),
})
export type Person = z.infer<typeof Person>

const signed = { id: z.string().min(1).max(200), author: z.string(), recordedAt: Instant }

const range = { from: Day, until: Day }

/**
 * Somebody is away and somebody else stands in: a holiday, a day off, a hand-over for a range of dates. Both days
 * count, on the wall of the one who is covered.
 */
export const Cover = z.object({
  person: PersonId,
  coveredBy: PersonId,
  ...range,
  why: z.enum(['holiday', 'hand-over', 'other']),
})
export type Cover = z.infer<typeof Cover>

/**
 * Where entries named somebody whom the law lets be forgotten: who erased it, when, why, under which law. It names
 * nobody else. The last of an erasure stands at the end of the journal and says in how many places.
 */
const JournalErased = z.object({
  ...signed,
  kind: z.literal('erased'),
  why: Words.min(1),
  law: Words.min(1),
  places: z.number().int().positive().optional(),
})
export type JournalErased = z.infer<typeof JournalErased>

type InForce<K extends ClinicEntry['kind']> = Extract<ClinicEntry, { kind: K }>

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
  z.object({ ...signed, kind: z.literal('cover'), ...Cover.shape }),
  z.object({ ...signed, kind: z.literal('on-call'), person: PersonId, ...range }),
  z.object({ ...signed, kind: z.literal('closed'), ...range, words: z.string().max(100) }),
  z.object({ ...signed, kind: z.literal('withdrawn'), withdraws: z.string() }),
  /** What the lead tightened, complete: it takes the place of what was tightened before (D21). */
  z.object({ ...signed, kind: z.literal('settings'), settings: ClinicSettings }),
  /** Every chart was looked at under these settings, because what it waits for may come sooner. */
  z.object({ ...signed, kind: z.literal('settings-in-force'), settings: z.string() }),
  JournalErased,
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
  /** In force unless withdrawn, oldest first: of two that overlap the later one holds. */
  readonly covers: readonly InForce<'cover'>[]
  readonly onCall: readonly InForce<'on-call'>[]
  readonly closed: readonly InForce<'closed'>[]
  readonly settings: ClinicSettings
  /** Settings under which the charts have not all been looked at yet. */
  readonly settingsToApply: string | undefined
}

/** The clinic as the rules see it: its settings and its people. */
export type Team = { readonly clinic: Clinic; readonly roster: Roster }

export function readRoster(entries: readonly ClinicEntry[]): Roster {
  const withdrawn = new Set(entries.flatMap((e) => (e.kind === 'withdrawn' ? [e.withdraws] : [])))
  const held = entries.filter((entry) => !withdrawn.has(entry.id))
  const all = <K extends ClinicEntry['kind']>(kind: K) =>
    held.filter((entry): entry is InForce<K> => entry.kind === kind)
  const settings = all('settings').at(-1)
  const people = new Map(all('person').map(({ person }) => [person.id, person]))
  return {
    length: entries.length,
    people,
    byAccount: new Map([...people.values()].map((person) => [person.chatUser, person])),
    coachesChannel: all('place').at(-1)?.channel,
    listDay: all('list-posted').at(-1)?.day,
    covers: all('cover'),
    onCall: all('on-call'),
    closed: all('closed'),
    settings: settings?.settings ?? {},
    settingsToApply: all('settings-in-force').at(-1)?.settings === settings?.id ? undefined : settings?.id,
  }
}

export function nameOf(team: Team, person: string): string {
  return team.roster.people.get(person)?.name ?? person
}
