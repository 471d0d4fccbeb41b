import { z } from 'zod'
import written from '../../shared/tables/carried-weight.json' with { type: 'json' }
import { CitedCurve, CitedNumber } from './cited.ts'
import type { Note } from './note.ts'
import { along, type Range } from './range.ts'

/**
 * What the legs really carry when the treadmill shows a number. People weighed inside it carried 93 % at a
 * setting of 100, 36 % at 30 and 28 % at 20; between 40 and 90 the setting was less than 5 % off
 * [set-actual-2015]. The sign of the error turns over on the way, so both edges of the band are drawn as
 * curves that rise with the setting: a lower setting can never come out as more weight.
 */
export type Setting = {
  /** Percent of body weight the machine was told to leave on the legs. */
  readonly bodyWeightPct: number
  /** Percent of body weight the athlete weighed inside the machine; the setting is then beside the point. */
  readonly measuredBodyWeightPct?: number | undefined
}

const table = z
  .strictObject({
    expectedPct: CitedCurve,
    lowestPct: CitedCurve,
    highestPct: CitedCurve,
    cautionBelowPct: CitedNumber,
    cautionAbovePct: CitedNumber,
  })
  .parse(written)

/** The weight to reckon with, percent: as measured, or else as set. */
export function reckonedPct(setting: Setting): number {
  return setting.measuredBodyWeightPct ?? setting.bodyWeightPct
}

/** Fraction of body weight carried, from lightest to heaviest: a point when it was measured. */
export function carriedFraction(setting: Setting): Range {
  const measured = setting.measuredBodyWeightPct
  if (measured !== undefined) return { low: measured / 100, high: measured / 100 }
  return {
    low: along(table.lowestPct.value, setting.bodyWeightPct) / 100,
    high: along(table.highestPct.value, setting.bodyWeightPct) / 100,
  }
}

/** The mean weight carried at a setting, percent [set-actual-2015]. */
export function expectedPct(bodyWeightPct: number): number {
  return along(table.expectedPct.value, bodyWeightPct)
}

/** Said at both ends of the range, where the setting misleads, unless the athlete was weighed. */
export function settingNotes(setting: Setting): Note[] {
  const { bodyWeightPct, measuredBodyWeightPct } = setting
  if (measuredBodyWeightPct !== undefined) return []
  const expected = expectedPct(bodyWeightPct).toFixed(0)
  const source = table.expectedPct.source
  if (bodyWeightPct > table.cautionAbovePct.value)
    return [
      {
        kind: 'caution',
        words: `Set to ${bodyWeightPct} % the machine carries about ${expected} %: it is not an ordinary treadmill, and the oxygen equation reads high on it. Weigh the athlete inside.`,
        source,
      },
    ]
  if (bodyWeightPct < table.cautionBelowPct.value)
    return [
      {
        kind: 'caution',
        words: `Set to ${bodyWeightPct} % the athlete carries about ${expected} %, more than shown. Weigh the athlete inside.`,
        source,
      },
    ]
  return []
}
