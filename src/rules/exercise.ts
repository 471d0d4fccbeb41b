import { type Chart, sessionOf } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { listChanged } from './cleared.ts'
import { both, type Decision, type Refusal, signed } from './decision.ts'
import { noteTo } from './note.ts'
import { settingsOf } from './settings.ts'
import type { Submission } from './submissions.ts'

/** Exercises as they were done. Pain above the tissue's limit in one of them is shown to the therapist. */
export function onExercise(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'exercise-done' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const refused = refusedDay(chart, submitted.day, now)
  if (refused) return refused
  const entry: EntryOf<'exercise-done'> = {
    ...submitted,
    ...signed(chart.athlete, numbered(chart, `exercise/${chart.athlete}/${submitted.day}`), now, by),
  }
  const most = settingsOf(chart).painDuringMost
  const hurt = entry.exercises.some((line) => (line.pain ?? 0) > most)
  return both({ entries: [entry], notices: [] }, ...(hurt ? [noteTo(chart, entry.id, now, team)] : []))
}

/** A prescribed run that was not run. */
export function onSkipped(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'run-skipped' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const refused = refusedDay(chart, submitted.day, now)
  if (refused) return refused
  if (sessionOf(chart, submitted.day))
    return { refused: 'already-recorded', words: 'The run of that day is logged already.', field: 'day' }
  if (chart.skipped.has(submitted.day))
    return { refused: 'already-recorded', words: 'That run is marked as not run already.', field: 'day' }
  const entry: EntryOf<'run-skipped'> = {
    ...submitted,
    ...signed(chart.athlete, numbered(chart, `run-skipped/${chart.athlete}/${submitted.day}`), now, by),
  }
  return both({ entries: [entry], notices: [] }, listChanged(chart, team, now))
}

function refusedDay(chart: Chart, day: string, now: Instant): Refusal | undefined {
  if (!chart.enrolment) return { refused: 'not-enrolled', words: 'The athlete is not enrolled yet.' }
  return day > dayAt(now, chart.enrolment.timeZone)
    ? { refused: 'not-yet', words: 'That day has not come yet.', field: 'day' }
    : undefined
}

/** Struck entries keep their ids, so a second try gets the next number. */
function numbered(chart: Chart, id: string): string {
  let number = 1
  while (chart.ids.has(number === 1 ? id : `${id}/${number}`)) number += 1
  return number === 1 ? id : `${id}/${number}`
}
