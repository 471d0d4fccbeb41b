import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import type { Refusal } from './decision.ts'
import type { Submission } from './submissions.ts'

/** Why a measure of a file is not taken though it would be alone: it has not happened yet, or it is there already. */
export function importRefusal(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'measure' }>,
  team: Team,
  now: Instant,
): Refusal | undefined {
  if (submitted.day > dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone))
    return { refused: 'not-yet', words: 'That day has not come yet.', field: 'day' }
  const there = chart.measures.some(
    (known) =>
      known.measure === submitted.measure &&
      known.day === submitted.day &&
      known.value === submitted.value &&
      known.otherSide === submitted.otherSide,
  )
  return there ? { refused: 'already-recorded', words: 'The record holds this already.' } : undefined
}
