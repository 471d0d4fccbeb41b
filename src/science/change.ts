import { ownBaseline } from './readiness.ts'
import { type Refusal, refuse } from './refusal.ts'
import { scores } from './scores-table.ts'

/** When is a change a change? Noise and worth of repeated measurements [typical-error-note]. */

/** SD of test-retest differences over the root of 2. */
export function typicalError(sdOfDifferences: number): number {
  return sdOfDifferences / Math.SQRT2
}

/** A fifth of the SD between athletes. Smaller than the typical error, it may be noise. */
export function smallestWorthwhileChange(sdBetween: number): number {
  return ownBaseline.smallestWorthwhileSd.value * sdBetween
}

/** Smallest change beyond noise, from the typical error (or standard error of measurement). */
export function minimalDetectableChange(typicalErrorOrSem: number, confidence: 90 | 95): number {
  const z = confidence === 90 ? ownBaseline.z90.value : ownBaseline.z95.value
  return z * Math.SQRT2 * typicalErrorOrSem
}

export type PainChange = {
  /** After minus before; negative is less pain. */
  readonly points: number
  /** Share of the pain before, per cent; null when there was none. */
  readonly pct: number | null
  /** Of an improvement only: the studies say nothing of worsening. */
  readonly improvement: 'important' | 'slight' | 'none'
}

/** Change of a 0-10 pain score: 2 points or 30 % is important [farrar-2001], 1 point or 15 % slight [salaffi-2004]. */
export function painChange(before: number, after: number): PainChange | Refusal {
  if (![before, after].every((pain) => pain >= 0 && pain <= 10))
    return refuse('out-of-range', 'Pain from 0 to 10 is accepted.')
  const points = after - before
  const pct = before === 0 ? null : (100 * points) / before
  const fallen = ({ points: least, pct: leastPct }: typeof scores.painChange.slight): boolean =>
    -points >= least.value || (pct !== null && -pct >= leastPct.value)
  const { slight, important } = scores.painChange
  const improvement = fallen(important) ? 'important' : fallen(slight) ? 'slight' : 'none'
  return { points, pct, improvement }
}
