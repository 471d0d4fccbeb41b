import type { Bout, Ceiling, Dose, Range } from '../chart/dose.ts'
import { metresPerMile } from '../chart/ladder.ts'
import type { SessionDone } from '../chart/session.ts'

/** "5 to 15", or "5" when both ends read the same. */
export function rangeWords({ low, high }: Range, decimals = 1): string {
  const [from, to] = [rounded(low, decimals), rounded(high, decimals)]
  return from === to ? from : `${from} to ${to}`
}

/** "8 to 11.3 km/h (5 to 7 mph)". */
export function speedWords({ low, high }: Range): string {
  const scaled = (factor: number) => rangeWords({ low: low * factor, high: high * factor })
  return `${scaled(3.6)} km/h (${scaled(3600 / metresPerMile)} mph)`
}

export function ceilingWords({ bodyWeightPct, speedMps, runMinutes }: Ceiling): string {
  const speed = speedWords({ low: speedMps, high: speedMps })
  return `up to ${bodyWeightPct} % of body weight carried, ${speed}, ${rounded(runMinutes)} min of running a session`
}

/** The bouts of a prescribed session, one line each; warm-up and cool-down last. */
export function doseWords(dose: Dose): readonly string[] {
  const around = `walk ${rounded(dose.warmUpMinutes)} min before and ${rounded(dose.coolDownMinutes)} min after`
  return [...dose.bouts.map(boutWords), around]
}

/** What was really run: minutes of running, the most weight carried, the highest speed. */
export function doneWords(session: SessionDone): string {
  const { minutes, bodyWeightPct, speedMps } = runOf(session)
  if (minutes === 0) return 'walked only'
  return `${rounded(minutes)} min at up to ${rounded(bodyWeightPct)} %, ${rounded(speedMps * 3.6)} km/h`
}

/** The running of a session: minutes in all, and the most of each setting; as weighed, where staff weighed. */
export function runOf({ bouts }: SessionDone): { minutes: number; bodyWeightPct: number; speedMps: number } {
  const runs = bouts.filter((bout) => bout.gait === 'run')
  const minutes = runs.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
  return {
    minutes,
    bodyWeightPct: Math.max(0, ...runs.map((bout) => bout.measuredBodyWeightPct ?? bout.bodyWeightPct)),
    speedMps: Math.max(0, ...runs.map((bout) => bout.speedMps)),
  }
}

export function rounded(value: number, decimals = 1): string {
  return String(Number(value.toFixed(decimals)))
}

function boutWords(bout: Bout): string {
  const repeats = bout.repeats.high > 1 ? `${rangeWords(bout.repeats)} times ` : ''
  const long = bout.minutes
    ? `${rangeWords(bout.minutes)} min`
    : `${rounded((bout.distanceM ?? 0) / 1000, 2)} km`
  const speed = bout.speedMps ? `, ${speedWords(bout.speedMps)}` : ', own pace'
  const incline = bout.inclinePct === 0 ? '' : `, ${bout.inclinePct} % incline`
  return `${bout.gait} ${repeats}${long} at ${bout.bodyWeightPct} % of body weight${speed}${incline}`
}
