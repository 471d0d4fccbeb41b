import { z } from 'zod'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

/** Something measured by staff: a name from shared/criteria/measures, a value in that measure's own unit, and the day. */
export const Measure = z.object({
  ...signed,
  kind: z.literal('measure'),
  /** For example `quadriceps-strength`, `single-hop`, `acl-rsi`; `effusion-grade` is 0, 0.5 (trace), 1, 2 or 3. */
  measure: z.string().regex(/^[a-z0-9-]+$/),
  day: Day,
  /** The value of a measure that has one number, or the injured side of one that has two. */
  value: z.number(),
  /** The other side, for measures that are compared between sides. */
  otherSide: z.number().optional(),
  /** How it was measured, where norms differ by it (cap of a timed stand, angle of a squeeze). */
  protocol: z.string().max(100).optional(),
  note: Words.optional(),
})
export type Measure = z.infer<typeof Measure>
