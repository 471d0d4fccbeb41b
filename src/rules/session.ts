import { type Chart, prescriptionOf, sessionOf, withEntries } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import type { SessionDone } from '../chart/session.ts'
import { lowerOf } from './ceiling.ts'
import { listChanged } from './cleared.ts'
import { both, type Decision, type Refusal, signed } from './decision.ts'
import { onFlags } from './flagged.ts'
import { noteTo } from './note.ts'
import type { Submission } from './submissions.ts'
import { triageHeard } from './triage.ts'
import { hear, type WordList } from './words.ts'

/**
 * What was really done, by the athlete or by staff. It is written down even when it was more than allowed: then
 * the therapist hears of it the same day. The response is decided by the mornings after, not here.
 */
export function onSession(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'session-done' }>,
  by: string,
  { team, words, now }: { readonly team: Team; readonly words: WordList; readonly now: Instant },
): Decision | Refusal {
  const { enrolment, plan } = chart
  if (!enrolment || !plan)
    return { refused: 'no-plan', words: 'No plan is signed yet. Please ask the therapist.' }
  const today = dayAt(now, enrolment.timeZone)
  if (submitted.day > today) return { refused: 'not-yet', words: 'That day has not come yet.', field: 'day' }
  if (submitted.day < enrolment.recordedAt.slice(0, 10))
    return { refused: 'too-early', words: 'That day is before the enrolment.', field: 'day' }
  if (sessionOf(chart, submitted.day))
    return { refused: 'already-recorded', words: 'The run of that day is logged already.' }
  const prescription = prescriptionOf(chart, submitted.day)
  const heard = hear(submitted.note ?? '', words)
  const session: SessionDone = {
    ...submitted,
    ...signed(chart.athlete, `session/${chart.athlete}/${submitted.day}`, now, by),
    rung: prescription?.rung ?? chart.sessions.at(-1)?.rung ?? plan.startRung,
    ...(prescription ? { about: prescription.id } : {}),
    ...(heard.length > 0 ? { heard: [...heard] } : {}),
  }
  const found = triageHeard(chart, heard, submitted.day, team.clinic)
  const remarkable = aboveCeiling(chart, session) || session.painDuring > 0 || prescription?.what !== 'run'
  return both(
    { entries: [session], notices: [] },
    ...(remarkable ? [noteTo(chart, session.id, now, team)] : []),
    onFlags(
      withEntries(chart, [session]),
      session.id,
      { ...found, said: session.note !== undefined && !remarkable },
      team,
      now,
    ),
    listChanged(chart, team, now),
  )
}

/** Whether a session went above what was signed, in weight carried, speed or minutes of running. */
export function aboveCeiling(chart: Chart, session: SessionDone): boolean {
  if (!chart.plan) return false
  const ceiling = lowerOf(chart.plan.ceiling, chart.clearance?.ceiling)
  const running = session.bouts.filter((bout) => bout.gait === 'run')
  const minutes = running.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
  return (
    minutes > ceiling.runMinutes ||
    running.some(
      (bout) =>
        (bout.measuredBodyWeightPct ?? bout.bodyWeightPct) > ceiling.bodyWeightPct ||
        bout.speedMps > ceiling.speedMps,
    )
  )
}
