import { type Chart, withEntries } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Notice } from '../chart/notices.ts'
import type { Team } from '../chart/roster.ts'
import { both, type Decision, nothing, signed } from '../rules/decision.ts'
import { nextDue } from '../rules/due.ts'
import { overdue } from '../rules/escalation-due.ts'
import type { Desk } from './desk.ts'

/** What became of a call on its way: taken by the platform, found in the conversation, or never to arrive. */
export type Became =
  | { readonly kind: 'call-sent' | 'call-delivered' }
  | { readonly kind: 'call-failed'; readonly words: string }

/**
 * Writes into the chart what became of a call, so that the rules can tell sent from delivered and go on at once from
 * somebody who is gone. Doing it twice is doing it once. A chart that will not take it stays as it is: the auditor
 * then finds a call that was not sent.
 */
export async function writeReceipt(desk: Desk, notice: Notice, became: Became): Promise<void> {
  if (notice.kind !== 'call' || notice.athlete === undefined) return
  for (let attempt = 0; attempt < 10; attempt += 1) {
    const team = await desk.team()
    const chart = await desk.charts.read(notice.athlete)
    const now = desk.clock.now()
    const decision = receipt(chart, notice, became, team, now)
    if (decision.entries.length === 0) return
    const after = withEntries(chart, decision.entries)
    const dueAt = nextDue(after, team, now)
    const atLength = chart.entries.length
    const outcome = await desk.store.commit({
      subject: chart.athlete,
      ...decision,
      atLength,
      dueAt,
      open: true,
    })
    if ('moved' in outcome) continue
    desk.charts.wrote(after)
    return
  }
  desk.report('receipt-not-kept', { key: notice.key })
}

function receipt(chart: Chart, notice: Notice, became: Became, team: Team, now: Instant): Decision {
  const made = chart.entries.find(
    (entry): entry is EntryOf<'call-made'> => entry.id === notice.about && entry.kind === 'call-made',
  )
  const id = `${notice.about}/${became.kind}`
  if (!made || chart.ids.has(id)) return nothing
  const { escalation, call } = made
  const entry = { ...signed(chart.athlete, id, now), escalation, call, ...became } as EntryOf<Became['kind']>
  const after = withEntries(chart, [entry])
  return both(
    { entries: [entry], notices: [] },
    became.kind === 'call-failed' ? overdue(after, team, now) : nothing,
  )
}
