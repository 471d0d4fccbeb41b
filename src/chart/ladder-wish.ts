import { z } from 'zod'
import { BodyWeightPct } from './dose.ts'

const SpeedMps = z.number().positive().max(10)
const Minutes = z.number().positive().max(240)
const RisePct = z.number().positive().max(100)

/** What a therapist asked a ladder for: from where, to where, and the most that may rise from rung to rung. */
export const LadderWish = z.strictObject({
  start: z.strictObject({ bodyWeightPct: BodyWeightPct, speedMps: SpeedMps, minutes: Minutes }),
  goal: z.strictObject({ speedMps: SpeedMps, minutes: Minutes, on: z.enum(['lbpp-treadmill', 'ground']) }),
  most: z.strictObject({ forceRisePct: RisePct, loadRisePct: RisePct }),
})
export type LadderWish = z.infer<typeof LadderWish>
