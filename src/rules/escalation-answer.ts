import type { Escalation } from '../chart/calls.ts'
import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'
import { callPerson, urgentNotice } from './escalation.ts'
import { isOnList } from './hand-over.ts'

type Asked = { readonly by: string; readonly team: Team; readonly now: Instant }

/** First press wins; the second is told who has it. */
export function acknowledge(chart: Chart, id: string, { by, team, now }: Asked): Decision | Refusal {
  const e = openOne(chart, id, team)
  if ('refused' in e) return e
  if (!isOnList(e, by)) return notOnList
  if (e.acknowledged?.author === by)
    return { refused: 'yours', words: 'You have this call already. Close it with what came of it.' }
  if (e.acknowledged) return taken(e.acknowledged.author, team)
  const number = e.acknowledgements.length + 1
  const acknowledged: EntryOf<'call-acknowledged'> = {
    ...signed(chart.athlete, `${id}/acknowledged${number > 1 ? `/${number}` : ''}`, now, by),
    kind: 'call-acknowledged',
    escalation: id,
  }
  const also = e.concern === 'audit' ? [] : [chart.athlete]
  return both({ entries: [acknowledged], notices: [] }, news(e, acknowledged.id, also, by, now))
}

/** To a colleague by name, who is called at once; silence there brings it back to whoever handed it over. */
export function handOver(
  chart: Chart,
  submitted: Pick<EntryOf<'handed-over'>, 'escalation' | 'to' | 'words'>,
  { by, team, now }: Asked,
): Decision | Refusal {
  const e = openOne(chart, submitted.escalation, team)
  if ('refused' in e) return e
  if (!isOnList(e, by)) return notOnList
  if (e.concern === 'support')
    return { refused: 'in-confidence', words: 'This goes to nobody else.', field: 'to' }
  if (e.acknowledged && e.acknowledged.author !== by) return taken(e.acknowledged.author, team)
  const fault = colleagueFault(chart, submitted.to, by, team)
  if (fault) return fault
  const handed: EntryOf<'handed-over'> = {
    ...signed(chart.athlete, `${e.id}/handed-over/${e.handedOver.length + 1}`, now, by),
    kind: 'handed-over',
    escalation: e.id,
    to: submitted.to,
    ...(submitted.words ? { words: submitted.words } : {}),
  }
  return both(
    { entries: [handed], notices: [] },
    callPerson(e, submitted.to, 'handed over', team, now),
    news(e, handed.id, [], by, now, submitted.to),
  )
}

export function close(
  chart: Chart,
  closing: Pick<EntryOf<'escalation-closed'>, 'escalation' | 'disposition' | 'words'>,
  { by, team, now }: Asked,
): Decision | Refusal {
  const e = openOne(chart, closing.escalation, team)
  if ('refused' in e) return e
  if (!isOnList(e, by)) return notOnList
  if (!e.acknowledged)
    return { refused: 'not-acknowledged', words: 'Acknowledge the call first, then close it.' }
  const closed: EntryOf<'escalation-closed'> = {
    ...signed(chart.athlete, `${e.id}/closed`, now, by),
    kind: 'escalation-closed',
    ...closing,
  }
  return both({ entries: [closed], notices: [] }, news(e, closed.id, [], by, now))
}

function openOne(chart: Chart, id: string, team: Team): Escalation | Refusal {
  const e = chart.escalations.find((one) => one.id === id)
  if (!e) return { refused: 'unknown-call', words: 'There is no such call in this chart.' }
  if (!e.closed) return e
  return { refused: 'closed', words: `This call was closed by ${nameOf(team, e.closed.author)} already.` }
}

function taken(by: string, team: Team): Refusal {
  return { refused: 'taken', words: `${nameOf(team, by)} has this call already.` }
}

const notOnList: Refusal = {
  refused: 'not-on-list',
  words: 'You are not on the list of this call. Ask the treating therapist.',
}

function colleagueFault(chart: Chart, to: string, by: string, team: Team): Refusal | undefined {
  const person = team.roster.people.get(to)
  if (to === by) return { refused: 'same-person', words: 'Name a colleague, not yourself.', field: 'to' }
  if (!person?.active || to === chart.athlete)
    return { refused: 'unknown-person', words: 'Nobody of that name works here.', field: 'to' }
  if (!person.roles.some((role) => role === 'therapist' || role === 'clinic-lead'))
    return { refused: 'cannot-take-it', words: `${person.name} cannot take calls.`, field: 'to' }
  return undefined
}

/** Everybody who was called, and whoever else is named, hears what became of it; in confidence only the athlete. */
function news(
  e: Escalation,
  about: string,
  also: readonly string[],
  ...rest: readonly [except: string, now: Instant, alreadyCalled?: string]
): Decision {
  const [except, now, alreadyCalled] = rest
  const people = new Set([...e.calls.map((made) => made.person), ...also])
  people.delete(except)
  if (alreadyCalled !== undefined) people.delete(alreadyCalled)
  const { athlete } = e.opened
  const notices = [...people].map((person) =>
    urgentNotice('call-news', person, { athlete, about, key: `${about}/news/${person}`, now }),
  )
  return people.size === 0 ? nothing : { entries: [], notices }
}
