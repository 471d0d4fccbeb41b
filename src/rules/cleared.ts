import { type Chart, checkInOf, openEscalations, prescriptionOf, sessionOf } from '../chart/chart.ts'
import type { State } from '../chart/clearance.ts'
import { type Day, dayAt, type Instant, plusMinutes } from '../chart/day.ts'
import { type Ceiling, type Dose, runMinutes } from '../chart/dose.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { type Decision, nothing } from './decision.ts'
import { quietUntil } from './quiet-hours.ts'

/** What a coach may know of an athlete on a day: cleared or not, at what load, until when. Nothing medical. */
export type ClearedLine = {
  readonly athlete: string
  readonly name: string
  readonly today: 'run' | 'run done' | 'no run today' | 'not cleared today' | 'waiting for the check-in'
  readonly state: State
  /** The most of today's run; absent unless there is one. */
  readonly ceiling: Ceiling | undefined
  readonly until: Day | undefined
}

/** Undefined when the athlete has not agreed to share with coaches, or is not enrolled. */
export function clearedLine(chart: Chart, team: Team, now: Instant): ClearedLine | undefined {
  const { enrolment, clearance } = chart
  if (!enrolment?.consentToCoach) return undefined
  const day = dayAt(now, enrolment.timeZone)
  const base = { athlete: chart.athlete, name: nameOf(team, chart.athlete) }
  const barred = openEscalations(chart).length > 0 || chart.holds.length > 0
  if (barred || !clearance || clearance.state === 'no running' || clearance.until < day)
    return { ...base, today: 'not cleared today', state: 'no running', ceiling: undefined, until: undefined }
  const cleared = { ...base, state: clearance.state, until: clearance.until }
  if (!checkInOf(chart, day)) return { ...cleared, today: 'waiting for the check-in', ceiling: undefined }
  const prescription = prescriptionOf(chart, day)
  // A day of exercises was planned; a day on which running was taken away is no day for the field either.
  if (prescription?.what !== 'run' || !prescription.dose)
    return {
      ...cleared,
      today: prescription?.what === 'exercise' ? 'no run today' : 'not cleared today',
      ceiling: undefined,
    }
  return { ...cleared, today: sessionOf(chart, day) ? 'run done' : 'run', ceiling: mostOf(prescription.dose) }
}

/** The coaches' message of a day at the clinic: posted once, then updated in place. */
export function listSurface(day: Day): string {
  return `list/${day}`
}

/**
 * An update of the coaches' list, when it is out already. All changes of one minute share one update, sent as the
 * next minute begins: five hundred mornings must not be five hundred edits of one message.
 */
export function listChanged(chart: Chart, team: Team, now: Instant): Decision {
  const day = dayAt(now, team.clinic.timeZone)
  if (!chart.enrolment?.consentToCoach || team.roster.listDay !== day || !team.roster.coachesChannel)
    return nothing
  const minute = `${plusMinutes(now, 1).slice(0, 16)}:00.000Z`
  const key = `${listSurface(day)}/${minute}`
  const notice = {
    key,
    kind: 'list' as const,
    to: { place: 'coaches' as const },
    about: day,
    surface: listSurface(day),
    queuedAt: now,
    notBefore: minute,
  }
  return { entries: [], notices: [notice] }
}

/** Each coach of the athlete hears at once that the clearance changed; what it is now is read at delivery. */
export function tellCoaches(chart: Chart, about: string, team: Team, now: Instant): Decision {
  const { athlete, enrolment } = chart
  if (!enrolment?.consentToCoach) return nothing
  const notices = enrolment.coaches.map((person) => {
    const notBefore = quietUntil(team, person, now)
    const notice = {
      key: `${about}/cleared/${person}`,
      kind: 'cleared' as const,
      to: { person },
      athlete,
      about,
      queuedAt: now,
    }
    return notBefore ? { ...notice, notBefore } : notice
  })
  return { entries: [], notices }
}

function mostOf(dose: Dose): Ceiling {
  const running = dose.bouts.filter((bout) => bout.gait === 'run')
  return {
    bodyWeightPct: Math.max(...running.map((bout) => bout.bodyWeightPct)),
    speedMps: Math.max(...running.map((bout) => bout.speedMps?.high ?? 0)),
    runMinutes: runMinutes(dose).high,
  }
}
