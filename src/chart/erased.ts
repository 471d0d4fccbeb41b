import { z } from 'zod'
import { Instant } from './day.ts'
import { signed, Words } from './signing.ts'

/** What is left of an erased chart: who erased it, when, why, under which law. Nothing of the athlete but the id. */
export const Erased = z.object({
  ...signed,
  kind: z.literal('erased'),
  why: Words.min(1),
  /** The law that allows it, as the clinic lead confirmed it. */
  law: Words.min(1),
  /** How many entries there were, and when the last was written. */
  entries: z.number().int().nonnegative(),
  lastRecordedAt: Instant.optional(),
})
export type Erased = z.infer<typeof Erased>
