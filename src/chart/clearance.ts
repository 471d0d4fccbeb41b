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
