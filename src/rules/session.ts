import { type Chart, prescriptionOf, sessionOf, withEntries } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import type { SessionDone } from '../chart/session.ts'
import { ceilingOn } from './ceiling.ts'
import { takeBack } from './check-in.ts'
import { listChanged, tellCoaches } from './cleared.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'
import { onFlags } from './flagged.ts'
import { noteTo } from './note.ts'
import { holdOf } from './prescription-stops.ts'
import { hurtInRun } from './response.ts'
import { settingsOf, sourceOf } from './settings.ts'
import type { Submission } from './submissions.ts'
import { triageHeard } from './triage.ts'
import { hear, type WordList } from './words.ts'

/**
 * What was really done, by the athlete or by staff. It is written down even when it was more than allowed: then
 * the therapist hears of it the same day. The response is decided by the mornings after, not here; only pain that
 * the tissue's rule does not accept in a run at all puts running on hold at once.
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
  if (submitted.day < dayAt(enrolment.recordedAt, enrolment.timeZone))
    return { refused: 'too-early', words: 'That day is before the enrolment.', field: 'day' }
  if (sessionOf(chart, submitted.day))
    return { refused: 'already-recorded', words: 'The run of that day is logged already.', field: 'day' }
  const prescription = prescriptionOf(chart, submitted.day)
  const heard = hear(submitted.note ?? '', words)
  const session: SessionDone = {
    ...submitted,
    ...signed(chart.athlete, freshId(chart, `session/${chart.athlete}/${submitted.day}`), now, by),
    rung: prescription?.rung ?? chart.sessions.at(-1)?.rung ?? plan.startRung,
    ...(prescription ? { about: prescription.id } : {}),
    ...(heard.length > 0 ? { heard: [...heard] } : {}),
  }
  const found = triageHeard(chart, heard, submitted.day, team.clinic)
  const remarkable = remarks(chart, session).length > 0
  const after = withEntries(chart, [session])
  const said = session.note !== undefined && !remarkable
  const flagged = onFlags(after, session.id, { ...found, said }, team, now)
  return both(
    { entries: [session], notices: [] },
    held(chart, session, team, now),
    ...(remarkable ? [noteTo(chart, session.id, now, team)] : []),
    flagged,
    takeBack(after, flagged, team, now),
    listChanged(chart, team, now),
  )
}

/** What the therapist should hear of a session the same day, in words; empty when all was as asked. */
export function remarks(chart: Chart, session: SessionDone): readonly string[] {
  const prescription = prescriptionOf(chart, session.day)
  return [
    hurtInRun(chart, session) ? `pain ${session.painDuring} of 10 during the run` : '',
    session.soreness === 'warm-up-stayed' ? 'soreness came in the warm-up and stayed' : '',
    session.soreness === 'went-and-came-back' ? 'soreness went and came back' : '',
    session.gait?.looked === 'limp' ? `a limp on the ${session.gait.side ?? 'injured'} side` : '',
    aboveCeiling(chart, session) ? 'above the signed ceiling' : '',
    prescription?.what === 'run' ? '' : 'no run was prescribed that day',
  ].filter((remark) => remark !== '')
}

/** Whether a session went above what was signed, in weight carried, speed or minutes of running. */
export function aboveCeiling(chart: Chart, session: SessionDone): boolean {
  const ceiling = ceilingOn(chart, session.day)
  if (!ceiling) return false
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

function held(chart: Chart, session: SessionDone, team: Team, now: Instant): Decision {
  if (!settingsOf(chart).holdOnPainDuring || !hurtInRun(chart, session)) return nothing
  const words = `Pain ${session.painDuring} of 10 in the run on ${session.day}.`
  const because = [{ finding: 'pain-in-run', words, source: sourceOf(chart, 'holdOnPainDuring') }]
  const hold: EntryOf<'hold'> = {
    ...signed(chart.athlete, holdOf(session.id), now),
    kind: 'hold',
    about: session.id,
    because,
  }
  const told = {
    key: `${hold.id}/told`,
    kind: 'told' as const,
    to: { person: chart.athlete },
    athlete: chart.athlete,
    about: hold.id,
    queuedAt: now,
  }
  return both({ entries: [hold], notices: [told] }, tellCoaches(chart, hold.id, team, now))
}

/** A struck session keeps its id, so what is logged in its place gets the next. */
function freshId(chart: Chart, id: string): string {
  let number = 1
  while (chart.ids.has(number === 1 ? id : `${id}/${number}`)) number += 1
  return number === 1 ? id : `${id}/${number}`
}
