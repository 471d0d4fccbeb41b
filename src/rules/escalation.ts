import { openedBy } from '../chart/calls.ts'
import { type Chart, type Escalation, openEscalations } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { type Instant, plusMinutes } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { callListFor } from './call-list.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'

/**
 * Opens an escalation and makes the first call at once. The call list is copied in: later edits to it do not
 * touch an alarm already ringing (D4). The hold stays when the escalation is closed: a therapist lifts it by name.
 */
export function open(
  chart: Chart,
  checkIn: CheckIn,
  alarm: { readonly tier: 'emergency' | 'urgent'; readonly because: readonly Because[] },
  team: Team,
  now: Instant,
): Decision {
  const id = `escalation/${checkIn.id}`
  const opened: EntryOf<'escalation-opened'> = {
    ...signed(chart.athlete, id, now),
    kind: 'escalation-opened',
    concern: 'body',
    about: checkIn.id,
    tier: alarm.tier,
    because: [...alarm.because],
    callList: callListFor(chart, alarm.tier, team),
  }
  const hold: EntryOf<'hold'> = {
    ...signed(chart.athlete, `hold/${checkIn.id}`, now),
    kind: 'hold',
    about: id,
    because: [...alarm.because],
  }
  const told = {
    key: `${id}/stop`,
    kind: 'stop' as const,
    to: { person: chart.athlete },
    athlete: chart.athlete,
    about: id,
    queuedAt: now,
  }
  const escalation = openedBy(opened)
  return both({ entries: [opened, hold], notices: [told] }, call(escalation, now))
}

/** The next person on the copied list is called; after the last the list starts again. It never ends by itself. */
export function call(escalation: Escalation, now: Instant): Decision {
  const { opened } = escalation
  const number = escalation.calls.length + 1
  const callee = opened.callList[(number - 1) % opened.callList.length]
  if (!callee) throw new Error(`${escalation.id} was opened without anybody to call`)
  const key = `${escalation.id}/call/${number}`
  const made: EntryOf<'call-made'> = {
    ...signed(opened.athlete, key, now),
    kind: 'call-made',
    escalation: escalation.id,
    call: number,
    person: callee.person,
    why: number === 1 ? 'opened' : 'no answer',
    ackBy: plusMinutes(now, callee.ackWithinMinutes),
  }
  const notice = {
    key,
    kind: 'call' as const,
    to: { person: callee.person },
    athlete: opened.athlete,
    about: key,
    queuedAt: now,
  }
  return { entries: [made], notices: [notice] }
}

/** Calls whose time to acknowledge has run out go on to the next person. */
export function overdue(chart: Chart, now: Instant): Decision {
  const late = openEscalations(chart).filter((e) => !e.acknowledged && (e.calls.at(-1)?.ackBy ?? '') <= now)
  return both(...late.map((escalation) => call(escalation, now)))
}

/** When the earliest open call runs out; undefined when none does. */
export function nextAckBy(chart: Chart): Instant | undefined {
  return openEscalations(chart)
    .filter((escalation) => !escalation.acknowledged)
    .map((escalation) => escalation.calls.at(-1)?.ackBy ?? escalation.opened.recordedAt)
    .toSorted()[0]
}

/** First wins; the second is told who has it. */
export function acknowledge(
  chart: Chart,
  id: string,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const escalation = chart.escalations.find((e) => e.id === id)
  if (!escalation) return unknownCall
  if (escalation.closed)
    return { refused: 'closed', words: `This call was closed by ${name(team, escalation.closed.author)}.` }
  if (escalation.acknowledged)
    return { refused: 'taken', words: `${name(team, escalation.acknowledged.author)} has this call already.` }
  if (!onList(escalation, by)) return notOnList
  const acknowledged: EntryOf<'call-acknowledged'> = {
    ...signed(chart.athlete, `${id}/acknowledged`, now, by),
    kind: 'call-acknowledged',
    escalation: id,
  }
  return both(
    { entries: [acknowledged], notices: [] },
    news(escalation, acknowledged.id, [chart.athlete], by, now),
  )
}

export function close(
  chart: Chart,
  closing: Pick<EntryOf<'escalation-closed'>, 'escalation' | 'disposition' | 'words'>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const escalation = chart.escalations.find((e) => e.id === closing.escalation)
  if (!escalation) return unknownCall
  if (escalation.closed)
    return {
      refused: 'closed',
      words: `This call was closed by ${name(team, escalation.closed.author)} already.`,
    }
  if (!escalation.acknowledged)
    return { refused: 'not-acknowledged', words: 'Acknowledge the call first, then close it.' }
  if (!onList(escalation, by)) return notOnList
  const closed: EntryOf<'escalation-closed'> = {
    ...signed(chart.athlete, `${escalation.id}/closed`, now, by),
    kind: 'escalation-closed',
    ...closing,
  }
  return both({ entries: [closed], notices: [] }, news(escalation, closed.id, [], by, now))
}

const unknownCall: Refusal = { refused: 'unknown-call', words: 'There is no such call in this chart.' }
const notOnList: Refusal = {
  refused: 'not-on-list',
  words: 'You are not on the list of this call. Ask the treating therapist.',
}

function onList(escalation: Escalation, person: string): boolean {
  return escalation.opened.callList.some((callee) => callee.person === person)
}

/** Everybody who was called, and whoever else is named, hears what became of it. */
function news(e: Escalation, about: string, also: readonly string[], except: string, now: Instant): Decision {
  const people = new Set([...e.calls.map((made) => made.person), ...also])
  people.delete(except)
  const notices = [...people].map((person) => ({
    key: `${about}/news/${person}`,
    kind: 'call-news' as const,
    to: { person },
    athlete: e.opened.athlete,
    about,
    queuedAt: now,
  }))
  return people.size === 0 ? nothing : { entries: [], notices }
}

function name(team: Team, person: string): string {
  return team.roster.people.get(person)?.name ?? person
}
