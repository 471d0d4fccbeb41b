import type { Note } from './note.ts'
import { internalLoad } from './session-load.ts'
import { mean } from './statistics.ts'

/**
 * Acute and chronic load, as a DESCRIPTION of a trend. No rule may import this file (a test sees to it):
 * dividing by a random "chronic" load describes injury about as well as by the real one
 * [impellizzeri-2020], and the coupled ratio correlates with itself [lolli-2019].
 */
export type Trend = {
  readonly ewmaAcute: number | null
  readonly ewmaChronic: number | null
  /** Null when there is nothing to divide by. */
  readonly ewmaRatio: number | null
  readonly reason?: string
}

/** Shown wherever a trend is shown. */
export const trendCaution: Note = {
  kind: 'caution',
  words:
    'Acute and chronic load only describe a trend. The ratio is not a validated predictor of injury: a random chronic load does about as well. Nothing here opens or closes a gate.',
  source: 'impellizzeri-2020',
}

/**
 * Exponentially weighted mean after the last of `loads`: E = load L + (1 - L) E', L = 2 / (N + 1), begun
 * with the first load [williams-2017]. (Half-life variants exist and give other numbers.)
 */
export function ewma(loads: readonly number[], days: number): number | null {
  const weight = ewmaWeight(days)
  const [first, ...later] = loads
  if (first === undefined) return null
  return later.reduce((average, load) => load * weight + (1 - weight) * average, first)
}

export function ewmaWeight(days: number): number {
  return 2 / (days + 1)
}

/** The trend of daily loads, oldest first, rest days as 0. */
export function trendOf(loads: readonly number[]): Trend {
  const ewmaAcute = ewma(loads, internalLoad.acuteDays.value)
  const ewmaChronic = ewma(loads, internalLoad.chronicDays.value)
  if (ewmaAcute === null || ewmaChronic === null)
    return { ewmaAcute, ewmaChronic, ewmaRatio: null, reason: 'No day has been recorded.' }
  if (ewmaChronic === 0)
    return {
      ewmaAcute,
      ewmaChronic,
      ewmaRatio: null,
      reason: 'No load at all: there is nothing to divide by.',
    }
  return { ewmaAcute, ewmaChronic, ewmaRatio: ewmaAcute / ewmaChronic }
}

/**
 * The older rolling ratio: last 7 days over the last 28 ('coupled') or over the 21 before them
 * ('uncoupled') [lolli-2019, windt-2019]. Null without 28 days or without anything to divide by.
 */
export function rollingRatio(loads: readonly number[], kind: 'coupled' | 'uncoupled'): number | null {
  const { acuteDays, chronicDays } = internalLoad
  if (loads.length < chronicDays.value) return null
  const month = loads.slice(-chronicDays.value)
  const acute = mean(month.slice(-acuteDays.value))
  const chronic = mean(kind === 'coupled' ? month : month.slice(0, -acuteDays.value))
  return chronic === 0 ? null : acute / chronic
}
