import { type Chart, checkInOf, prescriptionOf, sessionOf, withEntries } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Clinic } from '../chart/clinic.ts'
import { type Day, dayAt, type Instant } from '../chart/day.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { Team } from '../chart/roster.ts'
import type { SignGroup } from '../chart/signs.ts'
import { listChanged } from './cleared.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'
import { onFlags } from './flagged.ts'
import { caseOf, groupsFor } from './morning.ts'
import { noteTo } from './note.ts'
import { prescribe } from './prescription.ts'
import type { Submission } from './submissions.ts'
import { rings, triage } from './triage.ts'
import { forTherapist } from './why.ts'
import { hear, type WordList } from './words.ts'

/** The groups of signs that belong to the case on a day; each needs an explicit answer. */
export function groupsAsked(chart: Chart, day: Day, clinic: Clinic): readonly SignGroup[] {
  return groupsFor(caseOf(chart, day, clinic))
}

/** An athlete's own morning: written down, triaged, and answered with today's prescription or with a call. */
export function onCheckIn(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'check-in' }>,
  by: string,
  { team, words, now }: { readonly team: Team; readonly words: WordList; readonly now: Instant },
): Decision | Refusal {
  const { enrolment } = chart
  if (!enrolment)
    return { refused: 'not-enrolled', words: 'You are not enrolled yet. Please ask your therapist.' }
  const today = dayAt(now, enrolment.timeZone)
  if (submitted.day !== today)
    return { refused: 'other-day', words: `This form was for ${submitted.day}. Please open today's.` }
  if (checkInOf(chart, today)) return { refused: 'already-recorded', words: 'You have checked in for today.' }
  const asked = groupsAsked(chart, today, team.clinic)
  if (asked.includes('surgery') && submitted.answers.temperature === undefined)
    return {
      refused: 'unanswered',
      words: 'Type your temperature, or tick that you have not taken it.',
      field: 'temperature',
    }
  const missing = asked.find((group) => !submitted.answers.signs[group])
  if (missing)
    return {
      refused: 'unanswered',
      words: 'Tick what applies, or "none of these".',
      field: `signs-${missing}`,
    }
  const struck = [...chart.ids].filter((id) => id.startsWith(`check-in/${chart.athlete}/${today}`)).length
  const id = `check-in/${chart.athlete}/${today}${struck > 0 ? `/${struck + 1}` : ''}`
  const heard = hear(submitted.answers.note ?? '', words)
  const checkIn: CheckIn = {
    ...signed(chart.athlete, id, now, by),
    kind: 'check-in',
    day: today,
    ...submitted.answers,
    ...(heard.length > 0 ? { heard: [...heard] } : {}),
  }
  return both(
    { entries: [checkIn], notices: [] },
    decideMorning(withEntries(chart, [checkIn]), checkIn, team, now),
    listChanged(chart, team, now),
  )
}

/** What a check-in that stands in the chart leads to. A red flag outranks every ladder: then there is a call and no prescription of a run. */
export function decideMorning(chart: Chart, checkIn: CheckIn, team: Team, now: Instant): Decision {
  const found = triage(chart, checkIn, team.clinic)
  const flagged = onFlags(chart, checkIn.id, { ...found, said: checkIn.note !== undefined }, team, now)
  if (found.hold || (found.support && rings(found.support.tier))) return flagged
  const prescription = prescribe(chart, checkIn, team, now)
  const worth = forTherapist(chart, checkIn, prescription).length > 0
  return both(flagged, tell(prescription, now), worth ? noteTo(chart, checkIn.id, now, team) : nothing)
}

/** After flags that hold running: what is out for today is decided anew, and the coaches' list with it (D7). */
export function takeBack(chart: Chart, flagged: Decision, team: Team, now: Instant): Decision {
  if (!flagged.entries.some((entry) => entry.kind === 'hold')) return nothing
  return both(redecide(withEntries(chart, flagged.entries), team, now), listChanged(chart, team, now))
}

/**
 * What is out for today, decided anew after the chart changed under it. Nothing when there is nothing out, when the
 * run is done, or when the answer is the same; a check-in that was struck out takes its prescription with it.
 */
export function redecide(chart: Chart, team: Team, now: Instant): Decision {
  const { enrolment } = chart
  const today = enrolment && dayAt(now, enrolment.timeZone)
  const out = today && prescriptionOf(chart, today)
  if (!today || !out || sessionOf(chart, today)) return nothing
  const checkIn = checkInOf(chart, today)
  if (!checkIn) return out.what === 'run' ? tell(withdrawn(chart, out, now), now) : nothing
  const anew = prescribe(chart, checkIn, team, now)
  return sameRun(out, anew) ? nothing : tell(anew, now)
}

function withdrawn(chart: Chart, out: Prescription, now: Instant): Prescription {
  const number = chart.prescriptions.filter((prescription) => prescription.day === out.day).length + 1
  const { dose: _, ...rest } = out
  return {
    ...rest,
    ...signed(chart.athlete, `prescription/${chart.athlete}/${out.day}/${number}`, now),
    move: 'hold',
    what: 'rest',
    because: [
      {
        finding: 'struck',
        words: 'The answer behind it was struck out. Please check in again.',
        source: 'common-practice',
      },
    ],
  }
}

function sameRun(a: Prescription, b: Prescription): boolean {
  return a.what === b.what && a.rung === b.rung && JSON.stringify(a.dose) === JSON.stringify(b.dose)
}

function tell(prescription: Prescription, now: Instant): Decision {
  const notice = {
    key: `${prescription.id}/told`,
    kind: 'prescription' as const,
    to: { person: prescription.athlete },
    athlete: prescription.athlete,
    about: prescription.id,
    queuedAt: now,
  }
  return { entries: [prescription], notices: [notice] }
}
