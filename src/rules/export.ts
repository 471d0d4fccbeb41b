import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import { type Decision, type Refusal, signed } from './decision.ts'
import type { Submission } from './submissions.ts'

/** Every export is a page of the chart, written before anything leaves: who took what, for whom, how far it went. */
export function writeExport(
  chart: Chart,
  { what, for: whom }: Extract<Submission, { kind: 'exported' }>,
  by: string,
  now: Instant,
): Decision | Refusal {
  if (!chart.enrolment)
    return { refused: 'no-chart', words: 'There is no chart of this athlete to hand on.', field: 'athlete' }
  const number = chart.entries.filter((entry) => entry.kind === 'exported').length + 1
  const entry: EntryOf<'exported'> = {
    ...signed(chart.athlete, `exported/${chart.athlete}/${number}`, now, by),
    kind: 'exported',
    what,
    for: whom,
    chartLength: chart.entries.length + 1,
  }
  return { entries: [entry], notices: [] }
}
