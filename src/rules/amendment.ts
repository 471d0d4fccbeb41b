import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { answerRequest, standingRequest } from './amend-request.ts'
import { changeStanding } from './change-standing.ts'
import { both, type Decision, isRefusal, type Refusal } from './decision.ts'
import type { Submission } from './submissions.ts'

/** A request that is accepted by striking the entry: the answer and the amendment stand together or not at all. */
export function answerAndAmend(
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

export function strike(
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
