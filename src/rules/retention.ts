import { type Chart, openCalls } from '../chart/chart.ts'
import { type Day, dayAt, type Instant, plusMonths } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { amendRequests } from './amend-request.ts'
import { type Refusal, signed } from './decision.ts'
import { type Caller, may, notYours } from './permissions.ts'

/** The day until which a chart is kept: years after its last page that tells of the body or of care. */
export function keepUntil(chart: Chart, { clinic }: Team): Day | undefined {
  const last = chart.entries.findLast((entry) => entry.kind !== 'exported' && entry.kind !== 'erased')
  return last && plusMonths(dayAt(last.recordedAt, clinic.timeZone), clinic.record.keepYears * 12)
}

export type Erasing = {
  readonly why: string
  /** The law that allows it, in the words of the clinic lead. */
  readonly law: string
  /** The lead has confirmed that this law allows it before the retention period is over. */
  readonly beforeItsTime: boolean
}

/**
 * Whether a chart may be erased, and the tombstone that takes its place. Only the clinic lead may, naming the law;
 * never while a call or a request to amend is open. The desk does it: it cannot be undone.
 */
export function eraseChart(
  chart: Chart,
  { why, law, beforeItsTime }: Erasing,
  caller: Caller,
  team: Team,
  now: Instant,
): EntryOf<'erased'> | Refusal {
  if (!may(caller, 'erased', chart)) return notYours('erased')
  const last = chart.entries.at(-1)
  if (!last || last.kind === 'erased') return { refused: 'no-chart', words: 'There is nothing to erase.' }
  if (!why.trim() || !law.trim())
    return { refused: 'no-law', words: 'Say why, and which law allows it.', field: 'law' }
  if (openCalls(chart).length > 0) return { refused: 'call-open', words: 'A call is open: close it first.' }
  if (amendRequests(chart).some(({ answered }) => !answered))
    return { refused: 'request-open', words: 'A request to amend is open: answer it first.' }
  const until = keepUntil(chart, team)
  if (until && dayAt(now, team.clinic.timeZone) <= until && !beforeItsTime)
    return {
      refused: 'kept-by-law',
      words: `The record is kept until ${until}. Confirm that the law allows it to be erased before.`,
      field: 'beforeItsTime',
    }
  return {
    ...signed(chart.athlete, `erased/${chart.athlete}/${now}`, now, caller.id),
    kind: 'erased',
    why,
    law,
    entries: chart.entries.length,
    lastRecordedAt: last.recordedAt,
  }
}
