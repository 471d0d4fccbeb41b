import { type Chart, prescriptionOf } from '../chart/chart.ts'
import { type Day, plusDays } from '../chart/day.ts'
import type { SessionDone } from '../chart/session.ts'
import { sessionLoadAu } from '../science/session-load.ts'
import { respond } from './response.ts'
import { aboveCeiling } from './session.ts'

/** Seven days of one athlete in numbers. */
export type Week = {
  readonly from: Day
  readonly to: Day
  readonly checkIns: { readonly answered: number; readonly missed: number }
  readonly runs: {
    readonly prescribed: number
    readonly done: number
    readonly skipped: number
    readonly unlogged: number
    readonly unprescribed: number
    readonly aboveCeiling: number
  }
  readonly exerciseDays: number
  readonly runMinutes: number
  /** Effort times minutes of the runs, arbitrary units; walking is not in the log and not counted. */
  readonly loadAu: number
  /** Undefined when nobody answered. */
  readonly worstPain: number | undefined
  readonly worstMorning: number | undefined
  readonly swollenMornings: number
  readonly responses: Readonly<Record<'settled' | 'provoked' | 'flared' | 'unknown', number>>
}

/** The seven days that end on a day, as they are known on `today`. */
export function weekOf(chart: Chart, to: Day, today: Day): Week {
  const from = plusDays(to, -6)
  const inWeek = <T extends { readonly day: Day }>(all: readonly T[]) =>
    all.filter(({ day }) => day >= from && day <= to)
  const checkIns = inWeek(chart.checkIns)
  const sessions = inWeek(chart.sessions)
  const days = Array.from({ length: 7 }, (_, i) => plusDays(from, i))
  const prescribed = days.filter((day) => prescriptionOf(chart, day)?.what === 'run')
  const ran = new Set(sessions.map(({ day }) => day))
  const responses = { settled: 0, provoked: 0, flared: 0, unknown: 0 }
  for (const session of sessions) responses[respond(chart, session, today).response] += 1
  return {
    from,
    to,
    checkIns: { answered: checkIns.length, missed: days.filter((day) => chart.missed.has(day)).length },
    runs: {
      prescribed: prescribed.length,
      done: sessions.length,
      skipped: days.filter((day) => chart.skipped.has(day)).length,
      unlogged: prescribed.filter((day) => day < today && !ran.has(day) && !chart.skipped.has(day)).length,
      unprescribed: sessions.filter(({ day }) => !prescribed.includes(day)).length,
      aboveCeiling: sessions.filter((session) => aboveCeiling(chart, session)).length,
    },
    exerciseDays: exerciseDays(chart, from, to),
    runMinutes: sessions.reduce((sum, session) => sum + minutesRun(session), 0),
    loadAu: sessions.reduce((sum, session) => sum + loadOf(session), 0),
    worstPain: most(checkIns.map(({ worstPain }) => worstPain)),
    worstMorning: most(checkIns.map(({ morningPain }) => morningPain)),
    swollenMornings: checkIns.filter(({ swelling }) => swelling !== 'no').length,
    responses,
  }
}

/** Minutes of running in a session, as logged. */
export function minutesRun(session: SessionDone): number {
  return session.bouts
    .filter((bout) => bout.gait === 'run')
    .reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
}

function loadOf(session: SessionDone): number {
  const load = sessionLoadAu(session.rpe, minutesRun(session))
  return typeof load === 'number' ? load : 0
}

function exerciseDays(chart: Chart, from: Day, to: Day): number {
  const days = [
    ...chart.exercises.map(({ day }) => day),
    ...chart.sessions.filter(({ exercises }) => exercises && exercises.length > 0).map(({ day }) => day),
  ]
  return new Set(days.filter((day) => day >= from && day <= to)).size
}

function most(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : Math.max(...values)
}
