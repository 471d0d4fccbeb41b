import type { Bout, Ceiling, Dose, Range } from '../chart/dose.ts'
import { metresPerMile } from '../chart/ladder.ts'
import type { Because } from '../chart/signing.ts'

/** "5 to 15", or "5" when both ends are the same; never more than one decimal. */
export function rangeInWords({ low, high }: Range): string {
  return rounded(low) === rounded(high) ? rounded(low) : `${rounded(low)} to ${rounded(high)}`
}

/** "8 to 11.3 km/h (5 to 7 mph)". */
export function speedInWords(speedMps: Range): string {
  const kmh = rangeInWords(scale(speedMps, 3.6))
  const mph = rangeInWords(scale(speedMps, 3600 / metresPerMile))
  return `${kmh} km/h (${mph} mph)`
}

export function ceilingInWords(ceiling: Ceiling): string {
  const speed =
    ceiling.speedMps > 0 ? `, ${speedInWords({ low: ceiling.speedMps, high: ceiling.speedMps })}` : ''
  return `up to ${ceiling.bodyWeightPct} % of body weight${speed}, ${rounded(ceiling.runMinutes)} min of running`
}

/** A session as lines that one can run from. */
export function doseInWords(dose: Dose): string[] {
  const lightest = Math.min(...dose.bouts.map((bout) => bout.bodyWeightPct))
  const carried = dose.on === 'lbpp-treadmill' ? ` at ${lightest} % of body weight` : ''
  return [
    `Warm-up: walk ${rounded(dose.warmUpMinutes)} min${carried}`,
    ...dose.bouts.map((bout) => boutInWords(bout, dose.on)),
    `Cool-down: walk ${rounded(dose.coolDownMinutes)} min`,
    ...(dose.sessionMinutes === undefined
      ? []
      : [`${dose.sessionMinutes} min in all, walking between the bouts`]),
    ...(dose.untilM === undefined ? [] : [`In all ${farInWords(dose.untilM)}, walking included: then stop`]),
    ...(dose.effort === undefined ? [] : [`Effort about ${dose.effort} of 10`]),
  ]
}

/** A row of the table that one runs from: what is done, and at what weight, speed and incline. */
export type Row = readonly [what: string, how: string]

/** A session as a table of two columns that reads on a phone without being turned, in the order it is run. */
export function doseRows(dose: Dose): readonly Row[] {
  const lightest = Math.min(...dose.bouts.map((bout) => bout.bodyWeightPct))
  const easy = dose.on === 'lbpp-treadmill' ? `at ${lightest} % of body weight` : places[dose.on]
  return [
    [`*Walk* ${rounded(dose.warmUpMinutes)} min (warm-up)`, easy],
    ...dose.bouts.map((bout) => boutRow(bout, dose.on)),
    [`*Walk* ${rounded(dose.coolDownMinutes)} min (cool-down)`, easy],
    ...(dose.sessionMinutes === undefined
      ? []
      : [[`*In all* ${dose.sessionMinutes} min`, 'walking between the bouts'] as const]),
    ...(dose.untilM === undefined
      ? []
      : [[`*In all* ${farInWords(dose.untilM)}`, 'walking included: then stop'] as const]),
    ...(dose.effort === undefined ? [] : [['*Effort*', `about ${dose.effort} of 10`] as const]),
  ]
}

function farInWords(metres: number): string {
  return `${rounded(metres / 1000, 2)} km (${rounded(metres / metresPerMile, 2)} mi)`
}

function boutRow(bout: Bout, on: Dose['on']): Row {
  const howLong = bout.minutes
    ? `${rangeInWords(bout.minutes)} min`
    : `${rounded((bout.distanceM ?? 0) / 1000, 2)} km`
  const repeats = bout.repeats.high > 1 ? `${rangeInWords(bout.repeats)} times ` : ''
  const how = [
    on === 'lbpp-treadmill' ? `at ${bout.bodyWeightPct} % of body weight` : places[on],
    ...(bout.speedMps ? [speedInWords(bout.speedMps)] : []),
    ...(bout.inclinePct === 0 ? [] : [`${bout.inclinePct} % incline`]),
    ...(bout.recovery ? [betweenInWords(bout.recovery).slice(2)] : []),
  ]
  return [`*${bout.gait === 'run' ? 'Run' : 'Walk'}* ${repeats}${howLong}`, how.join('\n')]
}

export function reasonsInWords(because: readonly Because[]): string {
  return because.map((reason) => `${reason.words} [${reason.source}]`).join(' ')
}

const places = {
  'lbpp-treadmill': 'on the LBPP treadmill',
  treadmill: 'on the treadmill',
  track: 'on the track',
  ground: 'on the ground',
} as const

function boutInWords(bout: Bout, on: Dose['on']): string {
  const howLong = bout.minutes
    ? `${rangeInWords(bout.minutes)} min`
    : `${rounded((bout.distanceM ?? 0) / 1000, 2)} km`
  const repeats = bout.repeats.high > 1 ? `${rangeInWords(bout.repeats)} times ` : ''
  const speed = bout.speedMps ? `, ${speedInWords(bout.speedMps)}` : ''
  const incline = bout.inclinePct === 0 ? '' : `, ${bout.inclinePct} % incline`
  const carried = on === 'lbpp-treadmill' ? ` at ${bout.bodyWeightPct} % of body weight` : ''
  const between = bout.recovery ? betweenInWords(bout.recovery) : ''
  return `${bout.gait === 'run' ? 'Run' : 'Walk'} ${places[on]}: ${repeats}${howLong}${carried}${speed}${incline}${between}`
}

function betweenInWords(recovery: NonNullable<Bout['recovery']>): string {
  if (recovery.minutes) return `, ${recovery.gait} ${rounded(recovery.minutes)} min between`
  if (recovery.distanceM) return `, ${recovery.gait} ${rounded(recovery.distanceM / 1000, 2)} km between`
  return `, ${recovery.gait} between`
}

function scale(range: Range, factor: number): Range {
  return { low: range.low * factor, high: range.high * factor }
}

function rounded(value: number, decimals = 1): string {
  return String(Number(value.toFixed(decimals)))
}
