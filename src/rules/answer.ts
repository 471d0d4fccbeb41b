import { type Chart, openEscalations, withEntries } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import type { Ladder } from '../chart/ladder.ts'
import type { Team } from '../chart/roster.ts'
import { answerRequest, askToAmend, disagree, extendRequest, standingRequest } from './amend-request.ts'
import { onCheckIn, redecide } from './check-in.ts'
import { listChanged, tellCoaches } from './cleared.ts'
import { both, type Decision, isRefusal, nothing, type Refusal, signed } from './decision.ts'
import { acknowledge, close } from './escalation.ts'
import { writeExport } from './export.ts'
import { type Caller, may, notYours } from './permissions.ts'
import { onSession } from './session.ts'
import type { Submission } from './submissions.ts'

/** Finds a ladder by `id@version`; undefined when the library has none. */
export type FindLadder = (idAtVersion: string) => Ladder | undefined

/** The clinic's answer to a submission about one athlete: a decision, or a refusal with words. */
export function answer(
  chart: Chart,
  submission: Submission,
  at: { readonly caller: Caller; readonly team: Team; readonly ladders: FindLadder; readonly now: Instant },
): Decision | Refusal {
  const { caller, team, now } = at
  if (!may(caller, submission.kind, chart)) return notYours(submission.kind)
  switch (submission.kind) {
    case 'check-in':
      return onCheckIn(chart, submission, caller.id, team, now)
    case 'session-done':
      return onSession(chart, submission, caller.id, team, now)
    case 'call-acknowledged':
      return acknowledge(chart, submission.escalation, caller.id, team, now)
    case 'escalation-closed':
      return close(chart, submission, caller.id, team, now)
    case 'hold-lifted':
      return liftHold(chart, submission, caller.id, team, now)
    case 'amendment':
      return strike(chart, submission, caller.id, team, now)
    case 'enrolment':
      return enrol(chart, submission, caller.id, team, now)
    case 'plan-signed':
      return signPlan(chart, submission, at)
    case 'measure':
    case 'episode':
    case 'clearance':
      return changeStanding(chart, submission, caller.id, team, now)
    case 'hold': {
      const because = [{ finding: 'therapist', words: submission.words, source: 'therapist' }]
      const id = numbered(chart, 'hold')
      return changeStanding(
        chart,
        { kind: 'hold', athlete: chart.athlete, about: id, because },
        caller.id,
        team,
        now,
      )
    }
    case 'amendment-request':
      return askToAmend(chart, submission, caller.id, team, now)
    case 'amendment-request-extended':
      return extendRequest(chart, submission, caller.id, team, now)
    case 'amendment-request-answered':
      return answerAndAmend(chart, submission, caller.id, team, now)
    case 'disagreement-stated':
      return disagree(chart, submission, caller.id, team, now)
    case 'exported':
      return writeExport(chart, submission, caller.id, now)
    default:
      return submission satisfies never
  }
}

function enrol(
  chart: Chart,
  submission: Extract<Submission, { kind: 'enrolment' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const isThere = (id: string, role: string) => {
    const person = team.roster.people.get(id)
    return person?.active && person.roles.some((r) => r === role)
  }
  if (!isThere(submission.athlete, 'athlete'))
    return {
      refused: 'unknown-person',
      words: 'The clinic lead must add this person as an athlete first.',
      field: 'athlete',
    }
  if (!isThere(submission.therapist, 'therapist'))
    return {
      refused: 'no-therapist',
      words: 'An athlete needs a treating therapist who works here.',
      field: 'therapist',
    }
  if (submission.cover && !isThere(submission.cover, 'therapist'))
    return { refused: 'no-cover', words: 'The cover must be a therapist who works here.', field: 'cover' }
  return changeStanding(chart, submission, by, team, now)
}

function signPlan(
  chart: Chart,
  submission: Extract<Submission, { kind: 'plan-signed' }>,
  at: { readonly caller: Caller; readonly team: Team; readonly ladders: FindLadder; readonly now: Instant },
): Decision | Refusal {
  const ladder = typeof submission.ladder === 'string' ? at.ladders(submission.ladder) : submission.ladder
  if (!ladder)
    return { refused: 'unknown-ladder', words: `There is no ladder ${submission.ladder}.`, field: 'ladder' }
  if (!chart.episode) return { refused: 'no-episode', words: 'Write the episode first.', field: 'athlete' }
  if (chart.episode.tissue !== ladder.tissue)
    return {
      refused: 'other-tissue',
      words: `This ladder is for ${ladder.tissue}; the episode is about ${chart.episode.tissue}.`,
      field: 'ladder',
    }
  if (submission.startRung > ladder.rungs.length)
    return {
      refused: 'no-such-rung',
      words: `The ladder has ${ladder.rungs.length} rungs.`,
      field: 'startRung',
    }
  return changeStanding(chart, { ...submission, ladder }, at.caller.id, at.team, at.now)
}

/** A therapist lifts a hold by name. It gives no run on the same day: the next morning's answer decides. */
function liftHold(
  chart: Chart,
  submission: Extract<Submission, { kind: 'hold-lifted' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const hold = chart.holds.find((h) => h.id === submission.hold)
  if (!hold) return { refused: 'no-hold', words: 'That hold is not in force.' }
  if (openEscalations(chart).some((e) => e.id === hold.about))
    return { refused: 'call-open', words: 'Close the call first, with what came of it.' }
  return changeStanding(chart, submission, by, team, now)
}

/** A request that is accepted by striking the entry: the answer and the amendment stand together or not at all. */
function answerAndAmend(
  chart: Chart,
  submission: Extract<Submission, { kind: 'amendment-request-answered' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const answered = answerRequest(chart, submission, by, now)
  if (isRefusal(answered) || submission.outcome !== 'struck') return answered
  const strikes = standingRequest(chart, submission.request)?.asked.entry ?? ''
  const { athlete, words } = submission
  const struck = strike(chart, { kind: 'amendment', athlete, strikes, words }, by, team, now)
  return isRefusal(struck) ? struck : both(answered, struck)
}

function strike(
  chart: Chart,
  submission: Extract<Submission, { kind: 'amendment' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  if (!chart.ids.has(submission.strikes))
    return { refused: 'unknown-entry', words: 'There is no such entry.', field: 'strikes' }
  if (/^(escalation|amendment|amendment-request|exported)\//.test(submission.strikes))
    return {
      refused: 'not-strikable',
      words:
        'A call is closed with a disposition; requests, exports and amendments stay. None is struck out.',
      field: 'strikes',
    }
  return changeStanding(chart, submission, by, team, now)
}

type Change = Extract<
  Entry,
  {
    kind:
      | 'measure'
      | 'enrolment'
      | 'episode'
      | 'plan-signed'
      | 'clearance'
      | 'hold'
      | 'hold-lifted'
      | 'amendment'
  }
>
type Unsigned<E> = E extends unknown ? Omit<E, 'id' | 'author' | 'recordedAt'> : never

/**
 * A therapist's entry that changes what the athlete may do. Athlete and coaches hear of it in the same minute, and
 * a prescription that is out for today and not run yet is decided anew under what now holds.
 */
function changeStanding(
  chart: Chart,
  unsigned: Unsigned<Change>,
  by: string,
  team: Team,
  now: Instant,
): Decision {
  const id = unsigned.kind === 'hold' ? unsigned.about : numbered(chart, unsigned.kind)
  const entry = { ...unsigned, ...signed(chart.athlete, id, now, by) } as Change
  const after = withEntries(chart, [entry])
  return both(
    { entries: [entry], notices: [] },
    tellAthlete(entry, now),
    redecide(after, team, now),
    changesClearance.has(entry.kind) ? tellCoaches(after, entry.id, team, now) : nothing,
    listChanged(after, team, now),
  )
}

const changesClearance: ReadonlySet<string> = new Set(['clearance', 'hold', 'hold-lifted'])

/** The record of an episode and the striking of an entry are the therapist's own business. */
function tellAthlete(entry: Change, now: Instant): Decision {
  if (entry.kind === 'measure' || entry.kind === 'episode' || entry.kind === 'amendment') return nothing
  const { athlete, id } = entry
  const notice = {
    key: `${id}/told`,
    kind: 'told' as const,
    to: { person: athlete },
    athlete,
    about: id,
    queuedAt: now,
  }
  return { entries: [], notices: [notice] }
}

function numbered(chart: Chart, kind: string): string {
  const prefix = `${kind}/${chart.athlete}/`
  let number = 1
  while (chart.ids.has(`${prefix}${number}`)) number += 1
  return `${prefix}${number}`
}
