import { z } from 'zod'
import { WallTime, Zone } from './day.ts'

/** The clinic's standing settings, from shared/clinic.json. */
export const Clinic = z.strictObject({
  name: z.string().min(1),
  timeZone: Zone,
  /** What an athlete dials in an emergency, where the clinic is. */
  emergencyNumber: z.string().min(2).max(20),
  checkIn: z.strictObject({
    /** No answer this long after the prompt is written down as missed. */
    cutOffAfterMinutes: z.number().int().min(30).max(720),
  }),
  calls: z.strictObject({
    /** The next person is called when nobody has acknowledged within this. May be tightened, never loosened. */
    emergency: z.strictObject({ ackWithinMinutes: z.number().int().min(1).max(15) }),
    urgent: z.strictObject({ ackWithinMinutes: z.number().int().min(1).max(60) }),
  }),
  /** On each person's own wall; holds back everything but calls. */
  quietHours: z.strictObject({ from: WallTime, until: WallTime }),
  /** When the coaches' list is posted, on the clinic's wall. */
  listAt: WallTime,
  treadmill: z.strictObject({
    bodyWeightPct: z.strictObject({
      low: z.number().int().min(1),
      high: z.number().int().max(100),
      step: z.number().positive(),
    }),
    /** The step of a setting is what the machine's keys can set; absent: any value. */
    speedMps: z.strictObject({
      low: z.number().min(0),
      high: z.number().positive(),
      step: z.number().positive().optional(),
    }),
    inclinePct: z.strictObject({ low: z.number(), high: z.number(), step: z.number().positive().optional() }),
  }),
})
export type Clinic = z.infer<typeof Clinic>
