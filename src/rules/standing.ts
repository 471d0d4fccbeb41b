import type { Chart } from '../chart/chart.ts'
import { type Day, plusDays } from '../chart/day.ts'
import type { SessionDone } from '../chart/session.ts'
import { respond } from './response.ts'
import type { Answer } from './response-watch.ts'
import { wasWhole } from './whole.ts'

/** Where an athlete stands on the signed ladder. */
export type Standing = {
  /** The rung of the last run, or the one the therapist chose to start on; counted from 1. */
  readonly rung: number
  /** Whole sessions in a row on this rung whose response settled, counted up to what the rung asks for. */
  readonly timesDone: number
  /** The last run under this plan, with how the body answered it; undefined before the first. */
  readonly last: { readonly session: SessionDone; readonly answer: Answer } | undefined
  /** The last day on which the athlete ran, or may have run without logging it, under any plan. */
  readonly lastRunDay: Day | undefined
  /** A prescribed run since the last one logged, that nobody logged or said was not run. */
  readonly unlogged: Day | undefined
  /** Runs in the seven days that end today, under any plan: a new plan gives no new week. */
  readonly runsIn7Days: number
  readonly runsOnRungIn7Days: number
  /** Rungs begun or climbed in the seven days that end today. */
  readonly rungsUpIn7Days: number
}

/** Only runs since the plan was signed count for the rung: a new plan is a new start. */
export function standing(chart: Chart, today: Day): Standing | undefined {
  const { plan } = chart
  if (!plan) return undefined
  const all = byDay(chart.sessions)
  const runs = all.filter((session) => session.recordedAt >= plan.recordedAt)
  const weekStart = plusDays(today, -6)
  const session = runs.at(-1)
  const rung = session?.rung ?? plan.startRung
  const recent = all.filter(({ day }) => day >= weekStart && day <= today)
  const open = unloggedDays(chart, today)
  const newest = all.at(-1)?.day
  return {
    rung,
    timesDone: timesSettled(chart, runs, rung, today, plan.ladder.rungs[rung - 1]?.sessions.low ?? 1),
    last: session && { session, answer: respond(chart, session, today) },
    lastRunDay: [newest, open[0]]
      .filter((day) => day !== undefined)
      .sort()
      .at(-1),
    unlogged: open.find((day) => newest === undefined || day > newest),
    runsIn7Days: recent.length + open.filter((day) => day >= weekStart).length,
    runsOnRungIn7Days: recent.filter((run) => run.rung === rung).length,
    rungsUpIn7Days: climbs(runs, weekStart),
  }
}

/**
 * The day whose run is to be logged next: one that was prescribed, and neither logged nor said to be skipped, comes
 * before today's; without one it is today.
 */
export function dayToLog(chart: Chart, today: Day): Day {
  return standing(chart, today)?.unlogged ?? today
}

/** In the order in which they were run; a run may be logged late. */
function byDay(sessions: readonly SessionDone[]): readonly SessionDone[] {
  const inOrder = sessions.every((session, i) => session.day >= (sessions[i - 1]?.day ?? ''))
  return inOrder ? sessions : sessions.toSorted((a, b) => (a.day < b.day ? -1 : 1))
}

/** Days before today whose prescribed run was neither logged nor said to be skipped, newest first. */
function unloggedDays(chart: Chart, today: Day): Day[] {
  const newest = byDay(chart.sessions).at(-1)?.day ?? ''
  const weekStart = plusDays(today, -6)
  const [from = newest] = [newest, weekStart].sort()
  const done = new Set<Day>()
  const open: Day[] = []
  for (const { day } of chart.sessions) if (day >= from) done.add(day)
  for (let i = chart.prescriptions.length - 1; i >= 0; i -= 1) {
    const prescription = chart.prescriptions[i]
    if (!prescription || prescription.day < from) break
    const { day } = prescription
    if (day >= today || done.has(day)) continue
    done.add(day)
    if (prescription.what === 'run' && !chart.skipped.has(day)) open.push(day)
  }
  return open
}

/** A run longer ago than this says nothing of today, and a season on one rung costs no more than four weeks of it. */
const looksBackDays = 28

/** Counts back until there are enough. */
function timesSettled(
  chart: Chart,
  runs: readonly SessionDone[],
  rung: number,
  today: Day,
  enough: number,
): number {
  const oldest = plusDays(today, -looksBackDays)
  let times = 0
  for (let i = runs.length - 1; i >= 0 && times < enough; i -= 1) {
    const run = runs[i]
    if (!run || run.rung !== rung || run.day < oldest || respond(chart, run, today).response !== 'settled')
      return times
    if (wasWhole(chart, run)) times += 1
  }
  return times
}

/** The first run of a plan counts as a climb: a rung that lasts a week lasts it from the start. */
function climbs(runs: readonly SessionDone[], weekStart: Day): number {
  let count = 0
  for (let i = runs.length - 1; i >= 0; i -= 1) {
    const run = runs[i]
    if (!run || run.day < weekStart) return count
    if (run.rung > (runs[i - 1]?.rung ?? 0)) count += 1
  }
  return count
}
