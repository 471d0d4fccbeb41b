import type { Chart } from '../chart/chart.ts'
import type { Refusal } from './decision.ts'
import type { Submission } from './submissions.ts'

/** A line of a file that the record holds already: taken in twice, a file is taken in once. */
export function refusedTwice(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'measure' }>,
): Refusal | undefined {
  const there = chart.measures.some(
    (known) =>
      known.measure === submitted.measure &&
      known.day === submitted.day &&
      known.value === submitted.value &&
      known.otherSide === submitted.otherSide,
  )
  return there ? { refused: 'already-recorded', words: 'The record holds this already.' } : undefined
}
