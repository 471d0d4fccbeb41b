import { z } from 'zod'
import { Day } from './day.ts'
import { Dose } from './dose.ts'
import { Move } from './ladder.ts'
import { Because, Pain, signed } from './signing.ts'

/** What to do when it hurts during the run: by how much to lower what. When to stop stands on the set-up card. */
export const DuringRun = z.object({
  /** Pain up to this is accepted in the run. */
  painMost: Pain,
  /** Percentage points of body weight to take off first; 0 where weight cannot be carried by air. */
  lowerBodyWeightPct: z.number().min(0).max(100),
  /** Never below this. */
  leastBodyWeightPct: z.number().min(0).max(100),
  /** Then the speed, by this share of it. */
  lowerSpeedPct: z.number().min(0).max(100),
  source: z.string(),
})
export type DuringRun = z.infer<typeof DuringRun>

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
  /** Goes with a dose. */
  during: DuringRun.optional(),
  /** Last of the days without a run that the last session asked for. */
  restUntil: Day.optional(),
  /** A rung that the rules would offer, where the therapist asked to sign each step up. */
  proposedRung: z.number().int().positive().optional(),
  /** `id@version` of the exercises of a day without a run; they stand in the signed plan. */
  programme: z.string().optional(),
  because: z.array(Because).min(1),
})
export type Prescription = z.infer<typeof Prescription>
