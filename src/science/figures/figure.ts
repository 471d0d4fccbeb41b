import type { Range } from '../range.ts'
import { isRefusal, type Refusal } from '../refusal.ts'
import type { Label } from '../sources.ts'

/**
 * One published figure beside what this code computes. The tests hold every figure to its tolerance and the
 * `figures` command prints the same list, so the table people read is the table that is tested.
 */
export type Figure = {
  /** Row of the evidence files: L running load, N its second reading, C clinical. */
  readonly row: string
  readonly quantity: string
  readonly source: string
  readonly label: Label
  readonly published: number | Range
  readonly tolerance: number
  readonly compute: () => number | Range | Refusal
}

export type Compared = { readonly computed: number | Range; readonly deviation: number }

/**
 * Computed less published. Of two ranges, the larger of the two ends' differences; of a published number
 * and a computed range, how far outside the range it lies (0 inside).
 */
export function compare(figure: Figure): Compared {
  const computed = figure.compute()
  if (isRefusal(computed)) throw new Error(`${figure.row} ${figure.quantity}: ${computed.words}`)
  return { computed, deviation: deviationOf(figure.published, computed) }
}

function deviationOf(published: number | Range, computed: number | Range): number {
  if (typeof published === 'number') {
    if (typeof computed === 'number') return computed - published
    if (published < computed.low) return computed.low - published
    return published > computed.high ? computed.high - published : 0
  }
  const ends = typeof computed === 'number' ? { low: computed, high: computed } : computed
  const differences = [ends.low - published.low, ends.high - published.high]
  return differences.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a))
}
