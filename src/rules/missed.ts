import { type Chart, openEscalations } from '../chart/chart.ts'
import { type Day, type Instant, plusDays } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { caseOf } from './morning.ts'
import { noteTo } from './note.ts'

/**
 * Silence is written down and shown; it is never read as fine. The therapist hears of it after two days in a row,
 * after one soon after surgery or while a call or a hold is open, and again on every silent day from then on.
 */
export function missed(chart: Chart, day: Day, team: Team, now: Instant): Decision {
  const id = `check-in-missed/${chart.athlete}/${day}`
  const entry: EntryOf<'check-in-missed'> = {
    ...signed(chart.athlete, id, now),
    kind: 'check-in-missed',
    day,
    asked: chart.prompts.has(day),
  }
  const enough = silentDays(chart, day) >= daysToNote(chart, day, team)
  return both({ entries: [entry], notices: [] }, enough ? noteTo(chart, id, now, team) : nothing)
}

/** Days in a row without an answer, this one counted. */
export function silentDays(chart: Chart, day: Day): number {
  let days = 1
  while (chart.missed.has(plusDays(day, -days))) days += 1
  return days
}

function daysToNote(chart: Chart, day: Day, { clinic }: Team): number {
  const atRisk =
    caseOf(chart, day, clinic).afterSurgery || openEscalations(chart).length > 0 || chart.holds.length > 0
  return atRisk ? clinic.checkIn.noteAfterMissedDaysAtRisk : clinic.checkIn.noteAfterMissedDays
}
