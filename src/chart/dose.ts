import { z } from 'zod'

/** From low to high, both included. */
export const Range = z
  .object({ low: z.number(), high: z.number() })
  .refine((range) => range.low <= range.high, 'low must not be above high')
export type Range = z.infer<typeof Range>

export const Gait = z.enum(['walk', 'run'])

/** Percent of body weight CARRIED by the athlete; what the machine supports is 100 minus this (T1). */
export const BodyWeightPct = z.number().int().min(1).max(100)

/** A stretch of one gait, repeated; `recovery` is what lies between two repeats. Minutes or metres, never both. */
export const Bout = z
  .object({
    gait: Gait,
    bodyWeightPct: BodyWeightPct,
    /** Absent: the athlete's own comfortable pace. */
    speedMps: Range.optional(),
    inclinePct: z.number().min(-15).max(30),
    repeats: Range,
    minutes: Range.optional(),
    distanceM: z.number().positive().optional(),
    recovery: z
      .object({
        gait: Gait,
        minutes: z.number().positive().optional(),
        distanceM: z.number().positive().optional(),
      })
      .optional(),
  })
  .refine(
    (bout) => (bout.minutes === undefined) !== (bout.distanceM === undefined),
    'minutes or distanceM, one of them',
  )
export type Bout = z.infer<typeof Bout>

/** One session of running. */
export const Dose = z.object({
  on: z.enum(['lbpp-treadmill', 'treadmill', 'track', 'ground']),
  warmUpMinutes: z.number().min(0),
  bouts: z.array(Bout).min(1),
  coolDownMinutes: z.number().min(0),
  /** The whole session, walking included, where the source gives it. */
  sessionMinutes: z.number().positive().optional(),
})
export type Dose = z.infer<typeof Dose>

/** The most that a therapist signed for. */
export const Ceiling = z.object({
  bodyWeightPct: BodyWeightPct,
  speedMps: z.number().positive().max(10),
  /** Minutes of running in one session, walking not counted. */
  runMinutes: z.number().positive().max(240),
})
export type Ceiling = z.infer<typeof Ceiling>

/** What was really done in one bout, as the athlete or staff logged it. */
export const DoneBout = z.object({
  gait: Gait,
  /** As set on the machine. */
  bodyWeightPct: BodyWeightPct,
  /** As weighed in the machine, where staff did. */
  measuredBodyWeightPct: z.number().min(1).max(120).optional(),
  speedMps: z.number().min(0).max(10),
  inclinePct: z.number().min(-15).max(30),
  minutes: z.number().min(0).max(240),
  repeats: z.number().int().min(0).max(100),
})
export type DoneBout = z.infer<typeof DoneBout>

/** Minutes of running that a dose asks for, from its shortest to its longest reading. */
export function runMinutes(dose: Dose): Range {
  const running = dose.bouts.filter((bout) => bout.gait === 'run')
  return {
    low: running.reduce((sum, bout) => sum + bout.repeats.low * minutesOf(bout).low, 0),
    high: running.reduce((sum, bout) => sum + bout.repeats.high * minutesOf(bout).high, 0),
  }
}

/** A bout given in metres takes as long as its speed says; without a speed its minutes are not known (0). */
function minutesOf(bout: Bout): Range {
  if (bout.minutes) return bout.minutes
  if (!bout.distanceM || !bout.speedMps) return { low: 0, high: 0 }
  return { low: bout.distanceM / bout.speedMps.high / 60, high: bout.distanceM / bout.speedMps.low / 60 }
}
