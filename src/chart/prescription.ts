import { z } from 'zod'
import { Day } from './day.ts'
import { Dose } from './dose.ts'
import { Move } from './ladder.ts'
import { Because, signed } from './signing.ts'

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
