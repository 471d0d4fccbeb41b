import { type Chart, checkInOf, openCalls } from '../chart/chart.ts'
import { type Day, dayAt, daysBetween, type Instant, instantAt } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { nextAnswerBy } from './amend-request.ts'
import { reviewDue } from './review.ts'

/** What of an athlete wants a therapist's eye, in the order in which it does. */
export type Wants =
  | 'open call'
  | 'hold'
  | 'no answer'
  | 'review due'
  | 'clearance lapses'
  | 'request open'
  | 'not complete'
  | 'nothing'

export type CaseLine = {
  readonly athlete: string
  readonly wants: Wants
  readonly words: string
}

const order: readonly Wants[] = [
  'open call',
  'hold',
  'no answer',
  'review due',
  'clearance lapses',
  'request open',
  'not complete',
  'nothing',
]

const lapseSoonDays = 3

/** The caseload, what is most urgent first, then by name of the athlete's id. */
export function caseload(charts: readonly Chart[], team: Team, now: Instant): readonly CaseLine[] {
  return charts
    .map((chart) => caseLine(chart, team, now))
    .toSorted((a, b) => order.indexOf(a.wants) - order.indexOf(b.wants) || a.athlete.localeCompare(b.athlete))
}

export function caseLine(chart: Chart, team: Team, now: Instant): CaseLine {
  const first = mostUrgent(chart, team, now)
  const by = nextAnswerBy(chart, team)
  if (by === undefined) return first
  const words = `${first.words}; a request to correct the record: answer by ${by}`
  return { ...first, words, wants: first.wants === 'nothing' ? 'request open' : first.wants }
}

function mostUrgent(chart: Chart, team: Team, now: Instant): CaseLine {
  const line = (wants: Wants, words: string) => ({ athlete: chart.athlete, wants, words })
  const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const calls = openCalls(chart)
  if (calls.length > 0) return line('open call', `${calls.length} open call${calls.length > 1 ? 's' : ''}`)
  if (chart.holds.length > 0) return line('hold', 'on hold')
  if (!chart.episode || !chart.plan || !chart.clearance) return line('not complete', missingWords(chart))
  if (chart.missed.has(today)) return line('no answer', `no answer on ${today}`)
  if (isLate(chart, today, now)) return line('no answer', 'no answer yet this morning')
  const due = reviewDue(chart)
  if (due && due <= today) return line('review due', `review due since ${due}`)
  const { until } = chart.clearance
  if (until < today) return line('clearance lapses', `the clearance lapsed on ${until}`)
  if (daysBetween(today, until) <= lapseSoonDays)
    return line('clearance lapses', `the clearance lapses after ${until}`)
  return line('nothing', `cleared for ${chart.clearance.state} until ${until}`)
}

function isLate(chart: Chart, today: Day, now: Instant): boolean {
  const { enrolment } = chart
  if (!enrolment || checkInOf(chart, today) || !chart.prompts.has(today)) return false
  return now > instantAt(today, enrolment.promptAt, enrolment.timeZone)
}

function missingWords(chart: Chart): string {
  const missing = [
    ...(chart.episode ? [] : ['no episode written']),
    ...(chart.plan ? [] : ['no plan signed']),
    ...(chart.clearance ? [] : ['no clearance']),
  ]
  return missing.join(', ')
}
