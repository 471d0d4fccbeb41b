import { afterEntry, type Escalation, openedBy } from '../chart/calls.ts'
import { type Chart, openCalls } from '../chart/chart.ts'
import { type Instant, plusMinutes } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Callee, CallTier, Concern } from '../chart/escalation.ts'
import type { Notice } from '../chart/notices.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { auditList, callListFor, supportList } from './call-list.ts'
import { both, type Decision, nothing, signed } from './decision.ts'

export type Alarm = {
  readonly concern: Concern
  /** The entry that it comes from. */
  readonly about: string
  readonly tier: CallTier
  readonly because: readonly Because[]
}

type CallMade = EntryOf<'call-made'>

/**
 * One alarm per event. While one is open the same sign only updates it; a worse or a new sign rings anew and says
 * so. Otherwise an escalation is opened and the first call made at once. The call list is copied in: later edits to
 * it do not touch an alarm already ringing (D4).
 */
export function raise(chart: Chart, alarm: Alarm, team: Team, now: Instant): Decision {
  const ringing = openCalls(chart).find((e) => e.concern === alarm.concern && belongs(e, alarm))
  return ringing ? update(chart, ringing, alarm, team, now) : open(chart, alarm, team, now)
}

/** The next person on the copied list is called; after the last the list starts again. It never ends by itself. */
export function call(e: Escalation, why: CallMade['why'], team: Team, now: Instant): Decision {
  const { opened } = e
  const next = nextCallee(e, team)
  const callee = { ...next, ackWithinMinutes: minutesFor(e, next.ackWithinMinutes, team) }
  const made = callMade(e, callee, why, now)
  const round = opened.callList.findIndex((one) => one.person === callee.person)
  const before = opened.callList.findIndex((one) => one.person === e.calls.at(-1)?.person)
  const wrapped = why === 'no answer' && round <= before
  return both(ring(made), wrapped ? nobodyAnswered(e, made, now) : nothing)
}

/** A person is called who need not be the next on the list. */
export function callPerson(
  e: Escalation,
  person: string,
  why: CallMade['why'],
  team: Team,
  now: Instant,
): Decision {
  const ackWithinMinutes = team.clinic.calls[e.tier].ackWithinMinutes
  return ring(callMade(e, { person, ackWithinMinutes }, why, now))
}

/** A message that quiet hours never touch. */
export function urgentNotice(
  kind: 'call' | 'stop' | 'support' | 'call-news',
  person: string,
  at: { readonly athlete: string; readonly about: string; readonly key: string; readonly now: Instant },
): Notice {
  const { athlete, about, key, now } = at
  return { key, kind, to: { person }, athlete, about, queuedAt: now }
}

/** Whether calling somebody is in vain: the last call could never arrive, or they have left. */
export function isUnreachable(e: Escalation, person: string, team: Team): boolean {
  const last = e.calls.findLast((made) => made.person === person)
  return (last !== undefined && e.failed.has(last.call)) || !team.roster.people.get(person)?.active
}

/** Body and support have one event each; an audit is about one alarm. */
function belongs(e: Escalation, alarm: Alarm): boolean {
  return alarm.concern !== 'audit' || e.opened.about === alarm.about
}

function open(chart: Chart, alarm: Alarm, team: Team, now: Instant): Decision {
  const id = idFor(chart, alarm)
  const opened: EntryOf<'escalation-opened'> = {
    ...signed(chart.athlete, id, now),
    kind: 'escalation-opened',
    concern: alarm.concern,
    about: alarm.about,
    tier: alarm.tier,
    because: [...alarm.because],
    callList: listFor(chart, alarm, team, now),
  }
  return both(
    { entries: [opened], notices: [] },
    holdFor(chart, id, alarm, now),
    tellAthlete(chart, alarm.concern, id, id, now),
    call(openedBy(opened), 'opened', team, now),
  )
}

function update(chart: Chart, e: Escalation, alarm: Alarm, team: Team, now: Instant): Decision {
  const known = new Set(e.because.map((reason) => reason.finding))
  const worse =
    (alarm.tier === 'emergency' && e.tier === 'urgent') ||
    alarm.because.some((reason) => !known.has(reason.finding))
  const id = `${e.id}/updated/${e.updates.length + 1}`
  const updated: EntryOf<'escalation-updated'> = {
    ...signed(chart.athlete, id, now),
    kind: 'escalation-updated',
    escalation: e.id,
    about: alarm.about,
    tier: alarm.tier,
    because: [...alarm.because],
    worse,
  }
  const after = afterEntry(e, updated)
  const holder = e.acknowledged?.author ?? e.calls.at(-1)?.person
  const told =
    holder === undefined
      ? nothing
      : worse
        ? callPerson(after, holder, 'worse', team, now)
        : quietly(chart.athlete, id, holder, now)
  return both(
    { entries: [updated], notices: [] },
    chart.holds.some((hold) => hold.about === e.id) ? nothing : holdFor(chart, e.id, alarm, now),
    tellAthlete(chart, alarm.concern, e.id, id, now),
    told,
  )
}

function listFor(chart: Chart, { concern, tier }: Alarm, team: Team, now: Instant): Callee[] {
  switch (concern) {
    case 'body':
      return callListFor(chart, tier, team, now)
    case 'support':
      return supportList(tier, team)
    case 'audit':
      return auditList(team)
    default:
      return concern satisfies never
  }
}

/** The hold outlives the call: a therapist lifts it by name. In confidence it says no more than that it is one. */
function holdFor(chart: Chart, escalation: string, alarm: Alarm, now: Instant): Decision {
  if (alarm.concern === 'audit') return nothing
  const because = alarm.concern === 'body' ? [...alarm.because] : [inConfidence]
  const hold: EntryOf<'hold'> = {
    ...signed(chart.athlete, `hold/${alarm.concern === 'support' ? 'support/' : ''}${alarm.about}`, now),
    kind: 'hold',
    about: escalation,
    because,
  }
  return { entries: [hold], notices: [] }
}

const inConfidence: Because = {
  finding: 'in-confidence',
  words: 'A licensed colleague is in touch with the athlete; what about is between the two.',
  source: 'common-practice',
}

function tellAthlete(chart: Chart, concern: Concern, e: string, about: string, now: Instant): Decision {
  if (concern === 'audit') return nothing
  const kind = concern === 'support' ? 'support' : 'stop'
  const key = about === e ? `${e}/stop` : `${about}/stop`
  return {
    entries: [],
    notices: [urgentNotice(kind, chart.athlete, { athlete: chart.athlete, about, key, now })],
  }
}

/** The first of the list, or the one after whoever was called last; those who can never be reached are passed by. */
function nextCallee(e: Escalation, team: Team): Callee {
  const list = e.opened.callList
  const last = e.calls.findLast((made) => list.some((callee) => callee.person === made.person))
  const from = list.findIndex((callee) => callee.person === last?.person) + 1
  const inOrder = [...list.slice(from), ...list.slice(0, from)]
  const callee = inOrder.find(({ person }) => !isUnreachable(e, person, team)) ?? inOrder[0]
  if (!callee) throw new Error(`${e.id} was opened without anybody to call`)
  return callee
}

function callMade(e: Escalation, callee: Callee, why: CallMade['why'], now: Instant): CallMade {
  const call = e.calls.length + 1
  return {
    ...signed(e.opened.athlete, `${e.id}/call/${call}`, now),
    kind: 'call-made',
    escalation: e.id,
    call,
    person: callee.person,
    why,
    ackBy: plusMinutes(now, callee.ackWithinMinutes),
  }
}

/** What the copied list says, unless the sign has become worse since: then the shorter. */
function minutesFor(e: Escalation, minutes: number, team: Team): number {
  return Math.min(minutes, team.clinic.calls[e.tier].ackWithinMinutes)
}

function ring(made: CallMade): Decision {
  const { athlete, person, id, recordedAt } = made
  return {
    entries: [made],
    notices: [urgentNotice('call', person, { athlete, about: id, key: id, now: recordedAt })],
  }
}

/** The whole list was silent: the athlete must not go on waiting for us. */
function nobodyAnswered(e: Escalation, made: CallMade, now: Instant): Decision {
  if (e.concern === 'audit') return nothing
  const { athlete } = e.opened
  const kind = e.concern === 'support' ? 'support' : 'stop'
  const key = `${made.id}/nobody-yet`
  return { entries: [], notices: [urgentNotice(kind, athlete, { athlete, about: made.id, key, now })] }
}

function quietly(athlete: string, about: string, person: string, now: Instant): Decision {
  const key = `${about}/news/${person}`
  return { entries: [], notices: [urgentNotice('call-news', person, { athlete, about, key, now })] }
}

function idFor(chart: Chart, { concern, about }: Alarm): string {
  const base = concern === 'body' ? `escalation/${about}` : `escalation/${concern}/${about}`
  let id = base
  for (let n = 2; chart.ids.has(id); n += 1) id = `${base}/again-${n}`
  return id
}
