import { z } from 'zod'
import { Day, Instant, WallTime, Weekday, Zone } from './day.ts'
import { Ceiling, DoneBout, Dose } from './dose.ts'
import { Ladder, Move, Tissue } from './ladder.ts'
import { SignAnswers } from './signs.ts'

/** A person or an athlete, by an id of our own; the account in the chat workspace may change. */
export const PersonId = z.string().regex(/^[a-z0-9][a-z0-9-]{0,62}$/, 'an id such as "noor"')

/** Why something was decided: what was found, in plain words, and the source that says so. */
export const Because = z.object({ finding: z.string(), words: z.string(), source: z.string() })
export type Because = z.infer<typeof Because>

export const Pain = z.number().int().min(0).max(10)
const Words = z.string().max(3000)
const Tier = z.enum(['emergency', 'urgent', 'next-session'])
export type Tier = z.infer<typeof Tier>

/** The trade's own continuum of return to sport (ardern-2016), with the steps before it. */
export const State = z.enum([
  'no running',
  'unloaded running',
  'ground running',
  'return to participation',
  'return to sport',
  'return to performance',
])
export type State = z.infer<typeof State>

export const Disposition = z.enum([
  'seen in person',
  'called',
  'referred',
  'sent to emergency care',
  'continue',
  'programme stopped',
])

const signed = {
  id: z.string().min(1).max(200),
  athlete: PersonId,
  /** Who signed it; `sanderling` when a rule did. */
  author: z.string(),
  recordedAt: Instant,
}

export const Enrolment = z.object({
  ...signed,
  kind: z.literal('enrolment'),
  timeZone: Zone,
  /** When the morning question comes, on the athlete's own wall. */
  promptAt: WallTime,
  therapist: PersonId,
  cover: PersonId.optional(),
  coaches: z.array(PersonId).default([]),
  /** Without it no coach sees the athlete at all. */
  consentToCoach: z.boolean(),
  bodyMassKg: z.number().min(25).max(250).optional(),
  heightCm: z.number().min(100).max(240).optional(),
  sex: z.enum(['f', 'm']).optional(),
  shortsSize: z.enum(['XS', 'S', 'M', 'L', 'XL', '2XL', '3XL']).optional(),
  /** Precautions that the therapist ticked as present; asked of the treating clinician. */
  precautions: z.array(z.string().max(100)).default([]),
})

export const Episode = z.object({
  ...signed,
  kind: z.literal('episode'),
  diagnosis: z.string().min(1).max(100),
  tissue: Tissue,
  site: z.string().max(100),
  side: z.enum(['left', 'right', 'both', 'none']),
  onsetDay: Day,
  surgeryDay: Day.optional(),
  /** The surgeon's word: no running before this day. */
  noRunBefore: Day.optional(),
  words: Words.optional(),
})

export const PlanSigned = z.object({
  ...signed,
  kind: z.literal('plan-signed'),
  /** The ladder itself is copied in: later edits of the file never reach back (D3). */
  ladder: Ladder,
  startRung: z.number().int().positive(),
  /** Days on which the athlete may run. */
  days: z.array(Weekday).min(1),
  ceiling: Ceiling,
})

export const CheckIn = z.object({
  ...signed,
  kind: z.literal('check-in'),
  day: Day,
  /** Worst pain at the injured place since the last check-in. */
  worstPain: Pain,
  /** Pain at the injured place now, getting up. */
  morningPain: Pain,
  /** More swollen than yesterday? An athlete cannot grade an effusion. */
  swelling: z.enum(['no', 'yes', 'not sure']),
  /** 1 good to 7 bad, each; compared with the athlete's own past only (T2). */
  sleep: z.number().int().min(1).max(7).optional(),
  fatigue: z.number().int().min(1).max(7).optional(),
  stress: z.number().int().min(1).max(7).optional(),
  soreness: z.number().int().min(1).max(7).optional(),
  /** One answer for each group that was asked; an empty list is an explicit "none of these". */
  signs: SignAnswers,
  note: Words.optional(),
})
export type CheckIn = z.infer<typeof CheckIn>

export const CheckInMissed = z.object({
  ...signed,
  kind: z.literal('check-in-missed'),
  day: Day,
  /** False when the question never went out: then the silence is ours. */
  asked: z.boolean(),
})

export const Prompt = z.object({ ...signed, kind: z.literal('prompt'), day: Day })

export const Prescription = z.object({
  ...signed,
  kind: z.literal('prescription'),
  day: Day,
  /** The check-in that it answers. */
  about: z.string(),
  move: Move,
  rung: z.number().int().positive(),
  ladder: z.string(),
  what: z.enum(['run', 'exercise', 'rest']),
  /** Present when, and only when, `what` is run. */
  dose: Dose.optional(),
  because: z.array(Because).min(1),
})
export type Prescription = z.infer<typeof Prescription>

export const SessionDone = z.object({
  ...signed,
  kind: z.literal('session-done'),
  day: Day,
  /** The prescription it followed; absent when none was in force. */
  about: z.string().optional(),
  rung: z.number().int().positive(),
  bouts: z.array(DoneBout).min(1).max(50),
  painBefore: Pain,
  painDuring: Pain,
  painAfter: Pain,
  /** Session effort on the 0-10 category-ratio scale. */
  rpe: z.number().min(0).max(10),
  note: Words.optional(),
})
export type SessionDone = z.infer<typeof SessionDone>

export const Clearance = z.object({
  ...signed,
  kind: z.literal('clearance'),
  state: State,
  ceiling: Ceiling.optional(),
  /** Last day on which it holds; it lapses by itself and never rises by itself. */
  until: Day,
  words: Words.optional(),
})
export type Clearance = z.infer<typeof Clearance>

export const Hold = z.object({
  ...signed,
  kind: z.literal('hold'),
  /** The entry that caused it, or the therapist's own word. */
  about: z.string(),
  because: z.array(Because).min(1),
})

export const HoldLifted = z.object({
  ...signed,
  kind: z.literal('hold-lifted'),
  hold: z.string(),
  words: Words.min(1),
})

export const Callee = z.object({ person: PersonId, ackWithinMinutes: z.number().int().positive() })

export const EscalationOpened = z.object({
  ...signed,
  kind: z.literal('escalation-opened'),
  about: z.string(),
  tier: z.enum(['emergency', 'urgent']),
  because: z.array(Because).min(1),
  /** Copied from the clinic when it opens: later edits do not touch an alarm already ringing (D4). */
  callList: z.array(Callee).min(1),
})

export const CallMade = z.object({
  ...signed,
  kind: z.literal('call-made'),
  escalation: z.string(),
  call: z.number().int().positive(),
  person: PersonId,
  ackBy: Instant,
})

export const CallAcknowledged = z.object({
  ...signed,
  kind: z.literal('call-acknowledged'),
  escalation: z.string(),
})

export const EscalationClosed = z.object({
  ...signed,
  kind: z.literal('escalation-closed'),
  escalation: z.string(),
  disposition: Disposition,
  words: Words.min(1),
})

export const Amendment = z.object({
  ...signed,
  kind: z.literal('amendment'),
  strikes: z.string(),
  words: Words.min(1),
})

/** Everything that can stand in a chart. */
export const Entry = z.discriminatedUnion('kind', [
  Enrolment,
  Episode,
  PlanSigned,
  Prompt,
  CheckIn,
  CheckInMissed,
  Prescription,
  SessionDone,
  Clearance,
  Hold,
  HoldLifted,
  EscalationOpened,
  CallMade,
  CallAcknowledged,
  EscalationClosed,
  Amendment,
])
export type Entry = z.infer<typeof Entry>
export type EntryOf<K extends Entry['kind']> = Extract<Entry, { kind: K }>
