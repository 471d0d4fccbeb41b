import { z } from 'zod'
import { Day } from './day.ts'
import { Ceiling } from './dose.ts'
import { Because, signed, Words } from './signing.ts'

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

export const Clearance = z.object({
  ...signed,
  kind: z.literal('clearance'),
  state: State,
  ceiling: Ceiling.optional(),
  /** Last day on which it holds; it lapses by itself and never rises by itself. */
  until: Day,
  /** What is allowed beside running, and what is not although running is, in the therapist's words. */
  activities: z.array(z.string().min(1).max(200)).max(20).optional(),
  restrictions: z.array(z.string().min(1).max(200)).max(20).optional(),
  /** The signed criteria that it rests on. */
  about: z.string().optional(),
  words: Words.optional(),
})
export type Clearance = z.infer<typeof Clearance>

/** Written when the last day of a clearance is over: coach and athlete are told in the same minute. */
export const ClearanceLapsed = z.object({
  ...signed,
  kind: z.literal('clearance-lapsed'),
  clearance: z.string(),
  state: State,
})

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
