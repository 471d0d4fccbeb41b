import { isRefusal, type Refusal, refuse } from '../science/refusal.ts'
import { internalLoad, type Week, weekOf } from '../science/session-load.ts'
import type { Spread } from '../science/statistics.ts'
import { type Trend, trendCaution, trendOf } from '../science/trend.ts'
import { readOptions, turnAway } from './options.ts'

const options = { series: { type: 'string' }, sd: { type: 'string' }, json: { type: 'boolean' } } as const

/** Week load, monotony and strain of the last seven of a series of daily loads, and the trend of all of it. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const typed = readOptions(argv, options)
  if (isRefusal(typed)) return turnAway(typed)
  const loads = readSeries(typed.series)
  const spread = readSpread(typed.sd)
  if (isRefusal(loads)) return turnAway(loads)
  if (isRefusal(spread)) return turnAway(spread)
  const week = weekOf(loads.slice(-internalLoad.weekDays.value), spread)
  const trend = trendOf(loads)
  if (typed.json === true) out(JSON.stringify(loadRecord(week, trend), null, 2))
  else for (const line of loadSheet(week, trend)) out(line)
  return 0
}

function readSeries(typed: string | undefined): readonly number[] | Refusal {
  const loads = (typed ?? '').split(',').map((load) => (load.trim() === '' ? Number.NaN : Number(load)))
  return loads.every((load) => Number.isFinite(load) && load >= 0)
    ? loads
    : refuse(
        'unreadable',
        '--series needs one load of 0 or more per day, oldest first and rest days as 0: 300,0,450.',
      )
}

function readSpread(typed: string | undefined): Spread | Refusal {
  if (typed === undefined) return 'sample'
  return typed === 'sample' || typed === 'population'
    ? typed
    : refuse('unreadable', '--sd sample or population is accepted.')
}

/** The stable fields of `load --json`; what is null has its reason under the same name. */
function loadRecord(week: Week, trend: Trend) {
  const { days, weekLoad, spread, sd, monotony, strain } = week
  const { ewmaAcute, ewmaChronic, ewmaRatio } = trend
  const reasons = {
    ...(monotony === null ? { monotony: week.reason, strain: week.reason } : {}),
    ...(ewmaRatio === null ? { ewmaRatio: trend.reason } : {}),
  }
  return {
    days,
    weekLoad,
    spread,
    sd,
    monotony,
    strain,
    ewmaAcute,
    ewmaChronic,
    ewmaRatio,
    reasons,
    notes: [trendCaution],
  }
}

function loadSheet(week: Week, trend: Trend): string[] {
  const shown = (value: number | null, digits: number): string =>
    value === null ? 'none' : value.toFixed(digits)
  const whole = internalLoad.weekDays.value
  return [
    `Load            ${week.weekLoad.toFixed(0)} over ${week.days} ${week.days === 1 ? 'day' : 'days'}${week.days < whole ? ', not yet a whole week' : ''}`,
    `Monotony        ${shown(week.monotony, 2)} (${week.spread} SD ${shown(week.sd, 1)})`,
    `Strain          ${shown(week.strain, 0)}`,
    `EWMA            acute ${shown(trend.ewmaAcute, 1)}, chronic ${shown(trend.ewmaChronic, 1)}, ratio ${shown(trend.ewmaRatio, 2)}`,
    '',
    ...[week.reason, trend.reason].filter((reason) => reason !== undefined),
    `${trendCaution.kind}: ${trendCaution.words} [${trendCaution.source}]`,
  ]
}
