import type { Chart } from '../chart/chart.ts'
import { type Dose, metresOf, runMinutes } from '../chart/dose.ts'
import { doseOf } from '../chart/ladder.ts'
import type { SessionDone } from '../chart/session.ts'

/** Belt speeds and stopwatches are rounded: this much of the distance or time counts as all of it. */
const nearlyAll = 0.95

/**
 * Whether what was done was at least the easiest reading of what was asked: as long, and with as much weight. A
 * run that was cut short, or lightened on the way, may have settled and still does not count as the rung done.
 */
export function wasWhole(chart: Chart, session: SessionDone): boolean {
  const dose = asked(chart, session)
  if (!dose) return true
  const runs = session.bouts.filter((bout) => bout.gait === 'run')
  const minutes = runs.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
  const metres = runs.reduce((sum, bout) => sum + bout.minutes * 60 * bout.repeats * bout.speedMps, 0)
  const lightest = Math.min(...runs.map((bout) => bout.bodyWeightPct))
  const least = Math.min(...dose.bouts.map((bout) => bout.bodyWeightPct))
  const wantedM = metresOf(dose, 'run')
  const long = wantedM > 0 ? metres >= wantedM * nearlyAll : minutes >= runMinutes(dose).low * nearlyAll
  return runs.length > 0 && long && lightest >= least
}

/** What was prescribed that day, or what the rung asks for when nothing was. */
function asked(chart: Chart, session: SessionDone): Dose | undefined {
  const prescription = session.about
    ? chart.prescriptions.findLast(({ id }) => id === session.about)
    : undefined
  if (prescription?.dose) return prescription.dose
  const rung = chart.plan?.ladder.rungs[session.rung - 1]
  return rung && doseOf(rung)
}
