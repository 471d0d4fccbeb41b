import { z } from 'zod'
import written from '../../shared/tables/metabolic.json' with { type: 'json' }
import { CitedNumber } from './cited.ts'
import { isRefusal, type Refusal, refuse } from './refusal.ts'

/**
 * The metabolic equations of the American College of Sports Medicine, at FULL body weight [acsm-2020]:
 *
 *     walking  VO2 = 3.5 + 0.1 S + 1.8 S G      50-100 m/min
 *     running  VO2 = 3.5 + 0.2 S + 0.9 S G      above 134 m/min (80-134 only when it truly is a run)
 *
 * VO2 gross in mL per kg of whole body mass per minute, S in m/min, G the grade as a fraction. On an LBPP
 * treadmill they over-predict at every support [figueroa-2012], so nothing here takes a body weight:
 * what unloading does is `supported-running.ts`, as a range.
 */
export type Gait = 'walk' | 'run'

export type Effort = {
  readonly gait: Gait
  readonly metresPerMinute: number
  readonly gradePct: number
  /** Opens the running equation between 80 and 134 m/min, where many people still walk. */
  readonly trulyRunning?: boolean
}

const one = CitedNumber
const table = z
  .strictObject({
    restingVo2MlKgMin: one,
    kcalPerLitreO2: one,
    metresPerMinutePerMph: one,
    walking: z.strictObject({ horizontal: one, vertical: one, slowestMPerMin: one, fastestMPerMin: one }),
    running: z.strictObject({
      horizontal: one,
      vertical: one,
      slowestMPerMin: one,
      slowestTrulyRunningMPerMin: one,
    }),
    marathoners: z.strictObject({ offset: one, perMPerMin: one }),
  })
  .parse(written)

/** One MET, mL/kg/min. */
export const restingVo2MlKgMin = table.restingVo2MlKgMin.value

/** The rounded 26.8 m/min per mph that the published equations and worked answers use; exact is 26.8224. */
export function metresPerMinuteAsPublished(mph: number): number {
  return mph * table.metresPerMinutePerMph.value
}

/** Gross oxygen cost at full weight, mL/kg/min. Refuses where the equation was not made for. */
export function vo2MlKgMin(effort: Effort): number | Refusal {
  return outsideEquation(effort) ?? restingVo2MlKgMin + levelVo2(effort) + climbVo2(effort)
}

/** Net cost of moving on the level, mL/kg/min, without looking at the range: for callers who have. */
export function levelVo2({ gait, metresPerMinute }: Effort): number {
  return coefficients(gait).horizontal.value * metresPerMinute
}

/** Net cost of climbing, mL/kg/min, without looking at the range. */
export function climbVo2({ gait, metresPerMinute, gradePct }: Effort): number {
  return (coefficients(gait).vertical.value * metresPerMinute * gradePct) / 100
}

/** The grade in per cent at which this gait and speed cost `vo2`; the inverse of `vo2MlKgMin`. */
export function gradePctForVo2(vo2: number, effort: Omit<Effort, 'gradePct'>): number | Refusal {
  const level = vo2MlKgMin({ ...effort, gradePct: 0 })
  if (isRefusal(level)) return level
  if (vo2 < level)
    return refuse(
      'out-of-range',
      `This speed costs ${level.toFixed(1)} mL/kg/min on the level; ${vo2} needs less speed.`,
    )
  return (100 * (vo2 - level)) / (coefficients(effort.gait).vertical.value * effort.metresPerMinute)
}

/** The speed in m/min at which this gait and grade cost `vo2`; the inverse of `vo2MlKgMin`. */
export function metresPerMinuteForVo2(
  vo2: number,
  effort: Omit<Effort, 'metresPerMinute'>,
): number | Refusal {
  const { horizontal, vertical } = coefficients(effort.gait)
  const metresPerMinute =
    (vo2 - restingVo2MlKgMin) / (horizontal.value + (vertical.value * effort.gradePct) / 100)
  return outsideEquation({ ...effort, metresPerMinute }) ?? metresPerMinute
}

export function mets(vo2: number): number {
  return vo2 / restingVo2MlKgMin
}

/** Energy of an oxygen cost, at the rounded 5 kcal per litre [acsm-conversions]. */
export function kcalPerMin(vo2: number, massKg: number): number {
  return (vo2 * massKg * table.kcalPerLitreO2.value) / 1000
}

/** Independent line of 12 marathoners, gross, 166.7-366.7 m/min [marathoner-cost]: a cross-check, used by nothing. */
export function marathonerVo2MlKgMin(metresPerMinute: number): number {
  return table.marathoners.offset.value + table.marathoners.perMPerMin.value * metresPerMinute
}

const coefficients = (gait: Gait) => (gait === 'walk' ? table.walking : table.running)

function outsideEquation({ gait, metresPerMinute, trulyRunning }: Effort): Refusal | undefined {
  const { slowestMPerMin, fastestMPerMin } = table.walking
  const running = table.running
  // A speed of exactly the limit must not fail on the last bit of a conversion.
  const grain = 1e-9
  if (gait === 'walk')
    return metresPerMinute > slowestMPerMin.value - grain && metresPerMinute < fastestMPerMin.value + grain
      ? undefined
      : refuse(
          'out-of-range',
          'The walking equation holds from 50 to 100 m/min (1.9 to 3.7 mph, 3 to 6 km/h).',
        )
  if (metresPerMinute > running.slowestMPerMin.value - grain) return undefined
  if (metresPerMinute < running.slowestTrulyRunningMPerMin.value - grain)
    return refuse(
      'out-of-range',
      'The running equation holds above 134 m/min (5 mph, 8 km/h); this is a walk.',
    )
  return trulyRunning === true
    ? undefined
    : refuse(
        'say-more',
        'The running equation holds above 134 m/min (5 mph, 8.04 km/h); from 80 to 134 only when it truly is a run: say so (--truly-running).',
      )
}
