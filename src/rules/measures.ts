import type { Measure } from '../chart/measure.ts'
import type { MeasureKind } from '../chart/measure-kind.ts'
import { scoreOf } from '../science/questionnaires.ts'
import { isRefusal } from '../science/refusal.ts'
import { limbSymmetryPct } from '../science/symmetry.ts'
import type { Refusal } from './decision.ts'
import type { Shelf } from './shelf.ts'

/** Why a measure cannot be written, with what is allowed; undefined when it can. Totals only, never items. */
export function refusedMeasure(
  submitted: Pick<Measure, 'measure' | 'value' | 'otherSide' | 'day'>,
  shelf: Shelf,
  today: string,
): Refusal | undefined {
  const kind = shelf.measure(submitted.measure)
  if (!kind)
    return {
      refused: 'unknown-measure',
      words: `There is no measure ${submitted.measure}; see measures.json.`,
      field: 'measure',
    }
  if (submitted.day > today) return { refused: 'not-yet', words: 'That day has not come yet.', field: 'day' }
  if (kind.sides === 'one' && submitted.otherSide !== undefined)
    return { refused: 'one-side', words: `${kind.title} has one value.`, field: 'otherSide' }
  for (const field of ['value', 'otherSide'] as const) {
    const value = submitted[field]
    if (value !== undefined && !fits(kind, value))
      return { refused: 'out-of-range', words: `${kind.title}: ${allowedWords(kind)}.`, field }
  }
  return undefined
}

/** The value as it is read against a threshold: a raw total becomes its form's score (T6). */
export function readingOf(kind: MeasureKind, { value }: Pick<Measure, 'value'>): number {
  if (!kind.questionnaire) return value
  const score = scoreOf(kind.questionnaire, value)
  return isRefusal(score) ? value : score.score
}

/**
 * The injured side in percent of the other. A timed test is better when shorter, so its ratio is turned over (T5).
 * Undefined when one side was not measured or the ratio has no meaning.
 */
export function symmetryPct(
  kind: MeasureKind,
  { value, otherSide }: Pick<Measure, 'value' | 'otherSide'>,
): number | undefined {
  if (otherSide === undefined) return undefined
  const pct = limbSymmetryPct({ involved: value, uninvolved: otherSide }, kind.better)
  return isRefusal(pct) ? undefined : pct
}

/** "0 to 80", or the words of the only values there are. */
export function allowedWords(kind: MeasureKind): string {
  if (kind.values) return kind.values.map(({ value, words }) => `${value} (${words})`).join(', ')
  return `${kind.low} to ${kind.high}${kind.unit ? ` ${kind.unit}` : ''}${kind.whole ? ', whole numbers' : ''}`
}

function fits(kind: MeasureKind, value: number): boolean {
  if (kind.values) return kind.values.some((one) => one.value === value)
  return value >= kind.low && value <= kind.high && (!kind.whole || Number.isInteger(value))
}
