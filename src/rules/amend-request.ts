import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt, type Instant, plusDays } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { standingEntries } from '../chart/struck.ts'
import { both, type Decision, type Refusal, signed } from './decision.ts'
import { noteTo } from './note.ts'
import type { Submission } from './submissions.ts'

/** A request for correction as it stands, with the last day by which the law asks for an answer. */
export type AmendRequest = {
  readonly asked: EntryOf<'amendment-request'>
  readonly extended: EntryOf<'amendment-request-extended'> | undefined
  readonly answered: EntryOf<'amendment-request-answered'> | undefined
  readonly disagreement: EntryOf<'disagreement-stated'> | undefined
}

/** All requests of a chart, oldest first. */
export function amendRequests(chart: Chart): readonly AmendRequest[] {
  const entries = standingEntries(chart)
  const about = <
    K extends 'amendment-request-extended' | 'amendment-request-answered' | 'disagreement-stated',
  >(
    kind: K,
    id: string,
  ) => entries.find((e): e is EntryOf<K> => e.kind === kind && 'request' in e && e.request === id)
  return entries
    .filter((entry) => entry.kind === 'amendment-request')
    .map((asked) => ({
      asked,
      extended: about('amendment-request-extended', asked.id),
      answered: about('amendment-request-answered', asked.id),
      disagreement: about('disagreement-stated', asked.id),
    }))
}

export function standingRequest(chart: Chart, id: string): AmendRequest | undefined {
  return amendRequests(chart).find(({ asked }) => asked.id === id)
}

/** The last day for an answer (cfr-164-526 as an example; the clinic's own law in its settings). */
export function answerBy({ asked, extended }: AmendRequest, chart: Chart, { clinic }: Team): Day {
  const { answerWithinDays, extensionDays } = clinic.record
  const from = dayAt(asked.recordedAt, zoneOf(chart, clinic))
  return plusDays(from, answerWithinDays + (extended ? extensionDays : 0))
}

/** The first of the days by which an open request must be answered; undefined when none is open. */
export function nextAnswerBy(chart: Chart, team: Team): Day | undefined {
  const open = amendRequests(chart).filter(({ answered }) => !answered)
  return open.map((request) => answerBy(request, chart, team)).toSorted()[0]
}

type Asking<K extends Submission['kind']> = Extract<Submission, { kind: K }>

export function askToAmend(
  chart: Chart,
  { entry, words }: Asking<'amendment-request'>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  if (entry !== undefined && !chart.ids.has(entry))
    return { refused: 'unknown-entry', words: 'There is no such entry.', field: 'entry' }
  const prefix = `amendment-request/${chart.athlete}/`
  const number = chart.entries.filter((e) => e.kind === 'amendment-request').length + 1
  const asked: EntryOf<'amendment-request'> = {
    ...signed(chart.athlete, `${prefix}${number}`, now, by),
    kind: 'amendment-request',
    ...(entry === undefined ? {} : { entry }),
    words,
  }
  return both(
    { entries: [asked], notices: [] },
    noteTo(chart, asked.id, now, team),
    tell(chart, asked.id, now),
  )
}

export function extendRequest(
  chart: Chart,
  { request, words }: Asking<'amendment-request-extended'>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const open = openRequest(chart, request)
  if ('refused' in open) return open
  if (open.extended) return { refused: 'extended', words: 'A request is extended once.' }
  if (dayAt(now, zoneOf(chart, team.clinic)) > answerBy(open, chart, team))
    return { refused: 'too-late', words: 'The time for an answer is over: answer now.' }
  const entry: EntryOf<'amendment-request-extended'> = {
    ...signed(chart.athlete, `${request}/extended`, now, by),
    kind: 'amendment-request-extended',
    request,
    words,
  }
  return both({ entries: [entry], notices: [] }, tell(chart, entry.id, now))
}

/** Accepted or denied, never in silence. A late answer is still an answer, and its date shows that it was late. */
export function answerRequest(
  chart: Chart,
  { request, outcome, ground, words }: Asking<'amendment-request-answered'>,
  by: string,
  now: Instant,
): Decision | Refusal {
  const open = openRequest(chart, request)
  if ('refused' in open) return open
  if (outcome === 'denied' && !ground)
    return { refused: 'no-ground', words: 'A refusal needs its ground.', field: 'ground' }
  if (outcome === 'struck' && !open.asked.entry)
    return {
      refused: 'nothing-to-strike',
      words: 'The request names no entry: accept it by appending, or strike the entry and say so.',
      field: 'outcome',
    }
  const entry: EntryOf<'amendment-request-answered'> = {
    ...signed(chart.athlete, `${request}/answered`, now, by),
    kind: 'amendment-request-answered',
    request,
    outcome,
    ...(outcome === 'denied' && ground ? { ground } : {}),
    words,
  }
  return both({ entries: [entry], notices: [] }, tell(chart, entry.id, now))
}

export function disagree(
  chart: Chart,
  { request, words }: Asking<'disagreement-stated'>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const found = standingRequest(chart, request)
  if (!found) return unknownRequest
  if (found.answered?.outcome !== 'denied')
    return { refused: 'not-denied', words: 'Only a refusal can be disagreed with.' }
  if (found.disagreement) return { refused: 'already-recorded', words: 'Your disagreement stands already.' }
  const entry: EntryOf<'disagreement-stated'> = {
    ...signed(chart.athlete, `${request}/disagreement`, now, by),
    kind: 'disagreement-stated',
    request,
    words,
  }
  return both({ entries: [entry], notices: [] }, noteTo(chart, entry.id, now, team))
}

const unknownRequest: Refusal = {
  refused: 'unknown-request',
  words: 'There is no such request.',
  field: 'request',
}

function openRequest(chart: Chart, id: string): AmendRequest | Refusal {
  const found = standingRequest(chart, id)
  if (!found) return unknownRequest
  return found.answered ? { refused: 'answered', words: 'This request has been answered.' } : found
}

function tell(chart: Chart, about: string, now: Instant): Decision {
  const { athlete } = chart
  const notice = {
    key: `${about}/told`,
    kind: 'told' as const,
    to: { person: athlete },
    athlete,
    about,
    queuedAt: now,
  }
  return { entries: [], notices: [notice] }
}

function zoneOf(chart: Chart, clinic: Team['clinic']): string {
  return chart.enrolment?.timeZone ?? clinic.timeZone
}
