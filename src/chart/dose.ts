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
  /** The bouts go on until this much is covered, walking included, where the source gives a distance. */
  untilM: z.number().positive().optional(),
  /** Session effort that is meant, 0-10, where the source gives it. */
  effort: z.number().min(0).max(10).optional(),
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
  let low = 0
  let high = 0
  for (const bout of dose.bouts) {
    if (bout.gait === 'run') {
      const minutes = minutesOf(bout)
      low += bout.repeats.low * minutes.low
      high += bout.repeats.high * minutes.high
    }
    // Jogging between faster bouts is running too.
    if (bout.recovery?.gait === 'run') {
      const minutes = minutesOf({
        ...bout,
        minutes: undefined,
        distanceM: undefined,
        ...between(bout.recovery),
      })
      low += Math.max(bout.repeats.low - 1, 0) * minutes.low
      high += Math.max(bout.repeats.high - 1, 0) * minutes.high
    }
  }
  return { low, high }
}

/** Metres of one gait where the dose is given in metres, at its shortest reading. */
export function metresOf(dose: Dose, gait: z.infer<typeof Gait>): number {
  return dose.bouts.reduce((sum, bout) => {
    const own = bout.gait === gait ? bout.repeats.low * (bout.distanceM ?? 0) : 0
    const { recovery } = bout
    const rest = recovery?.gait === gait ? Math.max(bout.repeats.low - 1, 0) * (recovery.distanceM ?? 0) : 0
    return sum + own + rest
  }, 0)
}

type Long = {
  readonly minutes?: Range | undefined
  readonly distanceM?: number | undefined
  readonly speedMps?: Range | undefined
}

/** A bout given in metres takes as long as its speed says; without a speed its minutes are not known (0). */
function minutesOf({ minutes, distanceM, speedMps }: Long): Range {
  if (minutes) return minutes
  if (!distanceM || !speedMps) return { low: 0, high: 0 }
  return { low: distanceM / speedMps.high / 60, high: distanceM / speedMps.low / 60 }
}

function between({ minutes, distanceM }: NonNullable<Bout['recovery']>): Long {
  return minutes ? { minutes: { low: minutes, high: minutes } } : { distanceM }
}
