import { z } from 'zod'
import { Day } from './day.ts'
import { BodyWeightPct, type Bout, type Dose, Gait, Range } from './dose.ts'

/** How well a figure is known: seen in the source, seen in somebody's copy, remembered, computed, or custom. */
export const Label = z.enum(['read', 'read-2nd', 'memory', 'derived', 'common-practice'])

/** Which tissue heals: the families have different rules of pain and are never mixed (T8). */
export const Tissue = z.enum(['bone', 'joint', 'tendon', 'muscle'])
export type Tissue = z.infer<typeof Tissue>

export const Response = z.enum(['settled', 'provoked', 'flared', 'unknown'])
export type Response = z.infer<typeof Response>

export const Move = z.enum(['start', 'up', 'repeat', 'back', 'rest', 'hold'])
export type Move = z.infer<typeof Move>

const Stretch = z.strictObject({
  gait: Gait,
  repeats: Range,
  minutes: Range.optional(),
  miles: z.number().positive().optional(),
  speedMph: Range.optional(),
  speedKmh: Range.optional(),
  inclinePct: z.number().min(-15).max(30).default(0),
  recovery: z
    .strictObject({
      gait: Gait,
      minutes: z.number().positive().optional(),
      miles: z.number().positive().optional(),
    })
    .optional(),
})

export const Rung = z.strictObject({
  name: z.string().min(1).max(60),
  bodyWeightPct: BodyWeightPct,
  /** Sessions on this rung in 7 days: `low` must be done and settled before the next rung, `high` is the most. */
  sessions: Range,
  on: z.enum(['lbpp-treadmill', 'treadmill', 'track', 'ground']),
  warmUpMinutes: z.number().min(0).max(60),
  bouts: z.array(Stretch).min(1),
  coolDownMinutes: z.number().min(0).max(60),
  sessionMinutes: z.number().positive().max(240).optional(),
  /** The bouts go on until this many miles are covered, walking included. */
  untilMiles: z.number().positive().max(30).optional(),
  /** Session effort that is meant, 0-10. */
  effort: z.number().min(0).max(10).optional(),
  /** Days from run to run on this rung, where they differ from the ladder's. */
  daysFromRunToRun: z.number().int().min(1).max(7).optional(),
  /** What a clinician should know of this rung alone, such as a figure that is not in the source. */
  note: z.string().max(300).optional(),
})
export type Rung = z.infer<typeof Rung>

/** A run ladder as clinicians keep it in shared/protocols/, in the units in which it was published. */
export const Ladder = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  version: z.number().int().positive(),
  effective: Day,
  title: z.string().min(1),
  about: z.string().min(1),
  diagnoses: z.array(z.string()).min(1),
  /** Whose rules of pain may go with it; the episode's own tissue decides which. */
  tissues: z.array(Tissue).min(1),
  /** The sense of every `bodyWeightPct` in the file. A file that means support, or does not say, is refused (T1). */
  bodyWeight: z.literal('carried', {
    error: 'must be "carried": bodyWeightPct is the percent of body weight carried',
  }),
  sources: z.array(z.strictObject({ key: z.string(), label: Label, gives: z.string() })).min(1),
  entry: z.array(z.string()),
  exit: z.array(z.string()),
  limits: z.strictObject({
    sessionsPer7Days: z.number().int().min(1).max(7),
    /** 2 = every other day: never on days that touch. */
    daysFromRunToRun: z.number().int().min(1).max(7),
    rungsUpPer7Days: z.number().int().min(1).max(7),
    /** Days without a run after a session that hurt, where the source gives them; 0 when it does not. */
    restDaysWhenFlared: z.number().int().min(0).max(14).default(0),
  }),
  rungs: z.array(Rung).min(1),
  /** Verified when the library loads; a ladder whose own examples fail is refused. */
  examples: z
    .array(
      z.union([
        z.strictObject({ about: z.string(), rung: z.number().int().positive(), runMinutes: Range }),
        z.strictObject({
          about: z.string(),
          rung: z.number().int().positive(),
          miles: z.strictObject({ walk: z.number().min(0), run: z.number().min(0) }),
        }),
        z.strictObject({
          about: z.string(),
          rung: z.number().int().positive(),
          timesDone: z.number().int().min(0),
          response: Response,
          move: Move,
        }),
      ]),
    )
    .min(1),
})
export type Ladder = z.infer<typeof Ladder>

export const metresPerMile = 1609.344
const mpsPerMph = metresPerMile / 3600
const mpsPerKmh = 1 / 3.6

/** A rung, counted from 1, as a session with SI units. */
export function doseOf(rung: Rung): Dose {
  return {
    on: rung.on,
    warmUpMinutes: rung.warmUpMinutes,
    bouts: rung.bouts.map((stretch) => boutOf(rung, stretch)),
    coolDownMinutes: rung.coolDownMinutes,
    ...(rung.sessionMinutes === undefined ? {} : { sessionMinutes: rung.sessionMinutes }),
    ...(rung.untilMiles === undefined ? {} : { untilM: rung.untilMiles * metresPerMile }),
    ...(rung.effort === undefined ? {} : { effort: rung.effort }),
  }
}

function boutOf(rung: Rung, stretch: z.infer<typeof Stretch>): Bout {
  const { speedMph, speedKmh, miles, minutes, recovery } = stretch
  const speedMps = speedMph ? scaled(speedMph, mpsPerMph) : speedKmh ? scaled(speedKmh, mpsPerKmh) : undefined
  return {
    gait: stretch.gait,
    bodyWeightPct: rung.bodyWeightPct,
    inclinePct: stretch.inclinePct,
    repeats: stretch.repeats,
    ...(speedMps ? { speedMps } : {}),
    ...(minutes ? { minutes } : {}),
    ...(miles ? { distanceM: miles * metresPerMile } : {}),
    ...(recovery
      ? {
          recovery: {
            gait: recovery.gait,
            ...(recovery.minutes ? { minutes: recovery.minutes } : {}),
            ...(recovery.miles ? { distanceM: recovery.miles * metresPerMile } : {}),
          },
        }
      : {}),
  }
}

function scaled(range: Range, factor: number): Range {
  return { low: range.low * factor, high: range.high * factor }
}
