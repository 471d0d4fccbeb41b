import { carriedFraction, reckonedPct, type Setting } from './carried-weight.ts'
import { forceTable as table } from './force-table.ts'
import type { Gait } from './metabolic.ts'
import type { Note } from './note.ts'
import { along, alongLine, type Range, within } from './range.ts'
import { springMassPeakBw } from './spring-mass.ts'
import { slowestStepFactor } from './steps.ts'

/**
 * Vertical force of one step, in body weights (the athlete's own whole weight, not the carried one).
 */
export type Sex = 'f' | 'm'

/** Force averaged over stance, running at full weight [weyand-2005]; the mean of both lines when sex is unknown. */
export function stanceAverageBw(speedMps: number, sex?: Sex): number {
  const { men, women } = table.stanceAverageBw
  const of = (l: typeof men): number => l.offset.value + l.perMps.value * speedMps
  if (sex === 'm') return of(men)
  return sex === 'f' ? of(women) : (of(men) + of(women)) / 2
}

/**
 * Peak force at full weight. Running: from the spring-mass estimate with published contact shares
 * [morin-2005, van-oeveren-2021], which reads low most at slow speed, to a half-sine stance over the
 * stance average, pi/2 times [weyand-2005]. Walking: the published line from 1.2 at 1.5 m/s [keller-1996].
 */
export function peakForceBw(gait: Gait, speedMps: number, sex?: Sex): Range {
  if (gait === 'walk') {
    const peak = alongLine(table.walkingPeakBw.value, speedMps)
    return { low: peak, high: peak }
  }
  // One foot is down for `duty` of a stride of two steps: contact = 2 duty steps, the rest is flight.
  const contact = 2 * along(table.dutyFactor.value, speedMps)
  const halfSine = (Math.PI / 2) * stanceAverageBw(speedMps, sex)
  const springMass = springMassPeakBw(1 - contact, contact)
  return { low: Math.min(springMass, halfSine), high: Math.max(springMass, halfSine) }
}

/**
 * Peak force against full weight at the same speed. The active peak follows weight, not mass [chang-2000].
 * Walking adds the published 0.58 at 60 % and 0.21 at 20 % [eastlack-2005]. Running adds on the high side
 * that steps get longer under support [stockland-2019]: each must still carry the same mean force, so with
 * contact time unchanged its peak falls a little less than the weight. (Contact time itself is left out:
 * the studies contradict one another in sign.)
 */
export function forceRatio(gait: Gait, setting: Setting): Range {
  const carried = carriedFraction(setting)
  if (gait === 'walk') {
    const seen = along(table.walkingRatio.value, reckonedPct(setting))
    return { low: Math.min(carried.low, seen), high: Math.max(carried.high, seen) }
  }
  return { low: carried.low, high: carried.high / slowestStepFactor(100 * carried.high) }
}

export function forceNotes(gait: Gait, speedMps: number): Note[] {
  const curve = gait === 'walk' ? table.walkingPeakBw : table.dutyFactor
  const [first, last] = [curve.value[0], curve.value[curve.value.length - 1]]
  if (first === undefined || last === undefined || within(speedMps, [first[0], last[0]])) return []
  const words =
    gait === 'walk'
      ? 'The walking force line was measured from 1.5 m/s (3.4 mph) up.'
      : 'Contact times were published from 8 to 22 km/h (5 to 13.7 mph).'
  return [{ kind: 'extrapolated', words, source: curve.source }]
}

/**
 * Change of the in-shoe peak from one set body weight to another, body weights, running [smoliga-2015].
 * The abstract's "1.4 %" may mean body weights (taken here) or a share of the peak.
 */
export function plantarPeakChangeBw(fromPct: number, toPct: number): number {
  return table.plantarPeakBwPerPct.value * (toPct - fromPct)
}

/** Shock at the shin against full weight: 1 at every body weight. It is NOT scaled [moran-2017]. */
export function tibialShockRatio(_bodyWeightPct: number): number {
  return table.tibialShockRatio.value
}

/** Beside every force that a therapist is shown. */
export const shockWords =
  'Less weight is not less shock: tibial acceleration did not change from 100 to 60 % body weight [moran-2017].'
