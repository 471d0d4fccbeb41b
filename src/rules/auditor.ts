import type { Escalation } from '../chart/calls.ts'
import { type Chart, openCalls } from '../chart/chart.ts'
import { type Instant, minutesBetween } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { raise } from './escalation.ts'
import { remindAt } from './escalation-due.ts'

/** A round comes every minute; later than this past what the list says is a breach (common practice). */
const graceMinutes = 2
/** A call that the platform has not taken by then is not on its way. */
const sendWithinMinutes = 5

/**
 * Runs with every round, before the round repairs anything: did each open escalation do what its list says? What it
 * finds is written down once, itself called, and counted in the clinic lead's figures.
 */
export function audit(chart: Chart, team: Team, now: Instant): Decision {
  const decisions = openCalls(chart)
    .filter((e) => e.concern !== 'audit')
    .map((e) => {
      const found = faultsOf(chart, e, team, now).filter((breach) => !chart.ids.has(breach.id))
      if (found.length === 0) return nothing
      const because = [...new Map(found.map((b) => [b.what, b])).values()].map(({ what, words }) => ({
        finding: `breach-${what.replaceAll(' ', '-')}`,
        words,
        source: 'common-practice',
      }))
      const alarm = { concern: 'audit' as const, about: e.id, tier: 'urgent' as const, because }
      return both({ entries: found, notices: [] }, raise(chart, alarm, team, now))
    })
  return both(...decisions)
}

type Breach = EntryOf<'breach'>

function faultsOf(chart: Chart, e: Escalation, team: Team, now: Instant): readonly Breach[] {
  const breach = (what: Breach['what'], words: string, of?: number): Breach => ({
    ...signed(chart.athlete, breachId(e.id, what, of), now),
    kind: 'breach',
    escalation: e.id,
    what,
    words,
  })
  return [
    ...lateCalls(e, now).map((call) =>
      breach('late', `Call ${call} was not followed by the next in time.`, call),
    ),
    ...notSent(e, now).map((call) =>
      breach('not sent', `Call ${call} was not taken by the platform in time.`, call),
    ),
    ...offTheList(e).map((call) =>
      breach('off the list', `Call ${call} went to somebody who is not on the list.`, call),
    ),
    ...(chart.holds.some((hold) => hold.about === e.id)
      ? []
      : [breach('no hold', 'A call is open without a hold.')]),
    ...(e.concern === 'support' && !e.acknowledged && e.calls.length > 1
      ? [breach('nobody answers', 'The licensed person does not answer a call in confidence.')]
      : []),
    ...(unreminded(e, team, now)
      ? [
          breach(
            'no reminder',
            'Acknowledged, not closed in time, and nobody was reminded.',
            e.acknowledgements.length,
          ),
        ]
      : []),
  ]
}

function breachId(escalation: string, what: Breach['what'], of?: number): string {
  return `${escalation}/breach/${what.replaceAll(' ', '-')}${of === undefined ? '' : `/${of}`}`
}

/** A call with no answer must be followed by the next within the grace; the first must be made with the opening. */
function lateCalls(e: Escalation, now: Instant): readonly number[] {
  if (e.calls.length === 0) return minutesBetween(e.opened.recordedAt, now) > graceMinutes ? [0] : []
  return e.calls
    .filter((made, i) => {
      const answered = e.acknowledgements.some(
        (a) => a.recordedAt >= made.recordedAt && a.recordedAt <= made.ackBy,
      )
      const followedAt = e.calls[i + 1]?.recordedAt ?? (e.acknowledged ? e.acknowledged.recordedAt : now)
      return !answered && minutesBetween(made.ackBy, followedAt) > graceMinutes
    })
    .map((made) => made.call)
}

function notSent(e: Escalation, now: Instant): readonly number[] {
  return e.calls
    .filter((made) => !e.failed.has(made.call))
    .filter(
      (made) => minutesBetween(made.recordedAt, e.sent.get(made.call)?.recordedAt ?? now) > sendWithinMinutes,
    )
    .map((made) => made.call)
}

function offTheList(e: Escalation): readonly number[] {
  const people = new Set([
    ...e.opened.callList.map((callee) => callee.person),
    ...e.handedOver.map((h) => h.to),
  ])
  return e.calls.filter((made) => !people.has(made.person)).map((made) => made.call)
}

function unreminded(e: Escalation, team: Team, now: Instant): boolean {
  return (
    e.acknowledged !== undefined &&
    !e.reminded &&
    minutesBetween(remindAt(e, e.acknowledged, team), now) > graceMinutes
  )
}
