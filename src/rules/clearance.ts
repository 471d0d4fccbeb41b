import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt, type Instant, instantAt, plusDays } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { listChanged, tellCoaches } from './cleared.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'
import type { Submission } from './submissions.ts'

/** Why a clearance cannot be signed as it is, with what to do; undefined when it can. Therapists raise it, nobody else. */
export function refusedClearance(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'clearance' }>,
  today: Day,
): Refusal | undefined {
  if (!chart.episode) return { refused: 'no-episode', words: 'Write the episode first.', field: 'athlete' }
  if (submitted.until < today)
    return { refused: 'over', words: `That day is over; today is ${today}.`, field: 'until' }
  if (submitted.about !== undefined && !chart.criteriaSigned.some(({ id }) => id === submitted.about))
    return {
      refused: 'unknown-criteria',
      words: 'Those criteria are not signed in this chart.',
      field: 'about',
    }
  return undefined
}

/** A clearance whose last day is over lapses by itself: athlete and coaches are told in the same minute. */
export function lapseDue(chart: Chart, team: Team, now: Instant): Decision {
  const at = nextLapse(chart)
  const { clearance } = chart
  if (!clearance || at === undefined || now < at) return nothing
  const { athlete } = chart
  const entry: EntryOf<'clearance-lapsed'> = {
    ...signed(athlete, `${clearance.id}/lapsed`, now),
    kind: 'clearance-lapsed',
    clearance: clearance.id,
    state: clearance.state,
  }
  const told = {
    key: `${entry.id}/told`,
    kind: 'told' as const,
    to: { person: athlete },
    athlete,
    about: entry.id,
    queuedAt: now,
  }
  return both(
    { entries: [entry], notices: [told] },
    tellCoaches(chart, entry.id, team, now),
    listChanged(chart, team, now),
  )
}

/** The instant after the last day of the clearance in force; undefined when none will lapse. */
export function nextLapse({ clearance, enrolment, lapsed }: Chart): Instant | undefined {
  if (!clearance || !enrolment || clearance.state === 'no running' || lapsed.has(clearance.id))
    return undefined
  return instantAt(plusDays(clearance.until, 1), '00:00', enrolment.timeZone)
}

/** What will lapse within so many days: shown in the review, so that nobody is surprised. */
export function lapsesWithin(chart: Chart, days: number, now: Instant): Day | undefined {
  const { clearance, enrolment } = chart
  if (!clearance || !enrolment || clearance.state === 'no running') return undefined
  const today = dayAt(now, enrolment.timeZone)
  return clearance.until >= today && clearance.until <= plusDays(today, days) ? clearance.until : undefined
}
