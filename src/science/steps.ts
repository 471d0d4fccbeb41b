import { z } from 'zod'
import written from '../../shared/tables/steps.json' with { type: 'json' }
import { CitedCurve, CitedNumber, CitedSpan } from './cited.ts'
import type { Gait } from './metabolic.ts'
import type { Note } from './note.ts'
import { alongLine, type Range, within } from './range.ts'
import { cmPerInch, minPerMileFromMps } from './units.ts'

/**
 * Steps per minute (both feet). At full weight: 150.02 + 6.012 v within 10 for running
 * [van-oeveren-wearables], the published steps per mile for walking [hoeger-2008]; each 10 % of unloading
 * slows the step by 1.5-3.5 % [stockland-2019]. An athlete's own count at this dose beats all of it.
 */
const number = CitedNumber
const table = z
  .strictObject({
    runningOffsetSpm: number,
    runningSpmPerMps: number,
    runningSpeedMps: CitedSpan,
    bandSpm: number,
    eliteSpmPerMps: number,
    supportFactorPerTenPct: CitedSpan,
    walking: z.strictObject({
      stepsPerMile: CitedCurve,
      perMinPerMile: number,
      perInch: number,
      menOffset: number,
      womenOffset: number,
    }),
    running: z.strictObject({ perMinPerMile: number, perInch: number, offset: number }),
  })
  .parse(written)

/** Read by the figures only: five and a half steps a minute per m/s in elite runners [burns-2019]. */
export const eliteSpmPerMps = table.eliteSpmPerMps.value

export type Stride = {
  readonly gait: Gait
  readonly speedMps: number
  readonly bodyWeightPct: number
  /** Counted at this very dose. */
  readonly ownCadenceSpm?: number | undefined
}

export function cadenceSpm(stride: Stride): Range {
  const { gait, speedMps, bodyWeightPct, ownCadenceSpm } = stride
  if (ownCadenceSpm !== undefined) return { low: ownCadenceSpm, high: ownCadenceSpm }
  const middle = gait === 'run' ? runningCadenceSpm(speedMps) : walkingCadenceSpm(speedMps)
  const band = table.bandSpm.value
  const factor = supportFactor(bodyWeightPct)
  return { low: (middle - band) * factor.low, high: (middle + band) * factor.high }
}

export function cadenceNotes({ gait, speedMps, ownCadenceSpm }: Stride): Note[] {
  if (ownCadenceSpm !== undefined) return []
  if (gait === 'run') {
    if (within(speedMps, table.runningSpeedMps.value)) return []
    const words = 'The cadence line was measured from 1.64 to 4.68 m/s (3.7 to 10.5 mph).'
    return [{ kind: 'extrapolated', words, source: table.runningSpeedMps.source }]
  }
  const pace = minPerMileFromMps(speedMps)
  // Nobody counts steps to a thousandth of a minute: 3 and 4 mph are inside.
  if (within(pace, [15 - 1e-6, 20 + 1e-6])) return []
  const words = 'Walking steps were counted at 15 and 20 min/mile (3 to 4 mph).'
  return [{ kind: 'extrapolated', words, source: table.walking.stepsPerMile.source }]
}

/** Recreational runners at full weight; asked outside 1.64-4.68 m/s it goes on straight (see `cadenceNotes`). */
export function runningCadenceSpm(speedMps: number): number {
  return table.runningOffsetSpm.value + table.runningSpmPerMps.value * speedMps
}

/** Walkers at full weight, from the mean steps per mile, which fall straight with pace. */
export function walkingCadenceSpm(speedMps: number): number {
  const pace = minPerMileFromMps(speedMps)
  return alongLine(table.walking.stepsPerMile.value, pace) / pace
}

/** By how much support slows the step, a factor of the cadence at full weight. */
export function supportFactor(bodyWeightPct: number): Range {
  const [most, least] = table.supportFactorPerTenPct.value
  const tens = (100 - bodyWeightPct) / 10
  return { low: most ** tens, high: least ** tens }
}

/** The slowest stepping published for this support. */
export function slowestStepFactor(bodyWeightPct: number): number {
  return supportFactor(bodyWeightPct).low
}

/** Steps per mile of a runner by height: a second opinion on cadence, 2.5-5 % under the printed means [hoeger-2008]. */
export function runningStepsPerMile(minPerMile: number, heightCm: number): number {
  const { perMinPerMile, perInch, offset } = table.running
  return offset.value + perMinPerMile.value * minPerMile + (perInch.value * heightCm) / cmPerInch
}

/** Steps per mile of a walker by height and sex [hoeger-2008]. Not for running: it gives absurd counts there. */
export function walkingStepsPerMile(minPerMile: number, heightCm: number, sex: 'f' | 'm'): number {
  const { perMinPerMile, perInch, menOffset, womenOffset } = table.walking
  const offset = sex === 'm' ? menOffset.value : womenOffset.value
  return offset + perMinPerMile.value * minPerMile + (perInch.value * heightCm) / cmPerInch
}

export function stepsPerKm(cadence: number, speedMps: number): number {
  return (1000 * cadence) / (60 * speedMps)
}
