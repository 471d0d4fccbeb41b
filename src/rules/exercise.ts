import { type Chart, sessionOf, withEntries } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { takeBack } from './check-in.ts'
import { listChanged } from './cleared.ts'
import { both, type Decision, type Refusal, signed } from './decision.ts'
import { onFlags } from './flagged.ts'
import { noteTo } from './note.ts'
import { settingsOf } from './settings.ts'
import type { Submission } from './submissions.ts'
import { triageHeard } from './triage.ts'
import { hear, type WordList } from './words.ts'

/**
 * Exercises as they were done. Pain above the tissue's limit in one of them is shown to the therapist; the note is
 * listened to like any other.
 */
export function onExercise(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'exercise-done' }>,
  by: string,
  { team, words, now }: { readonly team: Team; readonly words: WordList; readonly now: Instant },
): Decision | Refusal {
  const refused = refusedDay(chart, submitted.day, now)
  if (refused) return refused
  const heard = hear(submitted.note ?? '', words)
  const entry: EntryOf<'exercise-done'> = {
    ...submitted,
    ...signed(chart.athlete, numbered(chart, `exercise/${chart.athlete}/${submitted.day}`), now, by),
    ...(heard.length > 0 ? { heard: [...heard] } : {}),
  }
  const hurt = hurtIn(chart, entry).length > 0
  const after = withEntries(chart, [entry])
  const found = triageHeard(chart, heard, entry.day, team.clinic)
  const flagged = onFlags(after, entry.id, { ...found, said: entry.note !== undefined && !hurt }, team, now)
  return both(
    { entries: [entry], notices: [] },
    ...(hurt ? [noteTo(chart, entry.id, now, team)] : []),
    flagged,
    takeBack(after, flagged, team, now),
  )
}

/** The exercises that hurt more than the tissue's rule accepts. */
export function hurtIn(
  chart: Chart,
  { exercises }: EntryOf<'exercise-done'>,
): EntryOf<'exercise-done'>['exercises'] {
  const most = settingsOf(chart).painDuringMost
  return exercises.filter((line) => (line.pain ?? 0) > most)
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
