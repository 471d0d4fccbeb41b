import type { Chart } from '../chart/chart.ts'
import { type Day, daysBetween } from '../chart/day.ts'
import type { SessionDone } from '../chart/session.ts'
import { type Answer, respond } from './response.ts'

/** Where an athlete stands on the signed ladder. */
export type Standing = {
  /** The rung of the last run, or the one the therapist chose to start on; counted from 1. */
  readonly rung: number
  /** Sessions in a row on this rung whose response settled. */
  readonly timesDone: number
  /** The last run under this plan, with how the body answered it; undefined before the first. */
  readonly last: { readonly session: SessionDone; readonly answer: Answer } | undefined
  /** Runs under this plan in the seven days that end today. */
  readonly runsIn7Days: number
  readonly runsOnRungIn7Days: number
  /** Rungs begun or climbed in the seven days that end today. */
  readonly rungsUpIn7Days: number
}

/** Only runs since the plan was signed count: a new plan is a new start. */
export function standing(chart: Chart, today: Day): Standing | undefined {
  const plan = chart.plan
  if (!plan) return undefined
  const runs = chart.sessions.filter((session) => session.recordedAt >= plan.recordedAt)
  const recent = runs.filter((session) => daysBetween(session.day, today) < 7)
  const session = runs.at(-1)
  const rung = session?.rung ?? plan.startRung
  return {
    rung,
    timesDone: timesSettled(chart, runs, rung, today),
    last: session && { session, answer: respond(chart, session, today) },
    runsIn7Days: recent.length,
    runsOnRungIn7Days: recent.filter((run) => run.rung === rung).length,
    rungsUpIn7Days: climbs(runs, today),
  }
}

function timesSettled(chart: Chart, runs: readonly SessionDone[], rung: number, today: Day): number {
  let times = 0
  for (const run of runs.toReversed()) {
    if (run.rung !== rung || respond(chart, run, today).response !== 'settled') return times
    times += 1
  }
  return times
}

/** The first run of a plan counts as a climb: a rung that lasts a week lasts it from the start. */
function climbs(runs: readonly SessionDone[], today: Day): number {
  return runs.filter((run, i) => run.rung > (runs[i - 1]?.rung ?? 0) && daysBetween(run.day, today) < 7)
    .length
}
