import type { Escalation } from '../chart/calls.ts'
import { type Chart, openCalls } from '../chart/chart.ts'
import { type Instant, plusMinutes } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { call, isUnreachable, urgentNotice } from './escalation.ts'

/** Calls whose time has run out go on to the next person; those acknowledged and not closed come back. */
export function overdue(chart: Chart, team: Team, now: Instant): Decision {
  return both(
    ...openCalls(chart).map((e) => (e.acknowledged ? unclosed(e, team, now) : unanswered(e, team, now))),
  )
}

/** When this chart must be looked at for its calls; every minute while one rings, so that the auditor is never late. */
export function nextCallDue(chart: Chart, team: Team, now: Instant): Instant | undefined {
  const dates = openCalls(chart).map((e) => {
    if (!e.acknowledged) return earlier(e.calls.at(-1)?.ackBy ?? now, plusMinutes(now, 1))
    return e.reminded ? backOnListAt(e.reminded, team) : remindAt(e, e.acknowledged, team)
  })
  return dates.toSorted()[0]
}

/** When whoever has the call is reminded to close it. */
export function remindAt(e: Escalation, acknowledged: EntryOf<'call-acknowledged'>, team: Team): Instant {
  return plusMinutes(acknowledged.recordedAt, team.clinic.calls[e.tier].closeWithinMinutes)
}

function unanswered(e: Escalation, team: Team, now: Instant): Decision {
  const last = e.calls.at(-1)
  if (!last) return call(e, 'opened', team, now)
  if (last.ackBy <= now) return call(e, 'no answer', team, now)
  const others = e.opened.callList.some(({ person }) => !isUnreachable(e, person, team))
  // Somebody who is gone costs no waiting, as long as there is anybody else.
  return others && isUnreachable(e, last.person, team) ? call(e, 'not reachable', team, now) : nothing
}

function unclosed(e: Escalation, team: Team, now: Instant): Decision {
  const { acknowledged, reminded } = e
  if (!acknowledged) return nothing
  if (!reminded) return now >= remindAt(e, acknowledged, team) ? remind(e, acknowledged.author, now) : nothing
  return now >= backOnListAt(reminded, team) ? backOnList(e, team, now) : nothing
}

function backOnListAt(reminded: EntryOf<'reminded'>, team: Team): Instant {
  return plusMinutes(reminded.recordedAt, team.clinic.calls.backOnListAfterMinutes)
}

function remind(e: Escalation, holder: string, now: Instant): Decision {
  const { athlete } = e.opened
  const id = `${e.id}/reminded/${e.acknowledgements.length}`
  const reminded: EntryOf<'reminded'> = { ...signed(athlete, id, now), kind: 'reminded', escalation: e.id }
  return {
    entries: [reminded],
    notices: [urgentNotice('call', holder, { athlete, about: id, key: id, now })],
  }
}

function backOnList(e: Escalation, team: Team, now: Instant): Decision {
  const id = `${e.id}/re-listed/${e.reListed.length + 1}`
  const reListed: EntryOf<'re-listed'> = {
    ...signed(e.opened.athlete, id, now),
    kind: 're-listed',
    escalation: e.id,
  }
  return both({ entries: [reListed], notices: [] }, call(e, 'back on the list', team, now))
}

function earlier(a: Instant, b: Instant): Instant {
  return a < b ? a : b
}
