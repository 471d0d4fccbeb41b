import type { Chart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Dose } from '../chart/dose.ts'
import type { DuringRun } from '../chart/prescription.ts'
import { settingsOf, sourceOf } from './settings.ts'

/** What to do when it hurts in the run: less weight first, then slower; how much is custom, and the therapist's to set. */
export function duringRun(chart: Chart, dose: Dose, treadmill: Clinic['treadmill']): DuringRun {
  const rules = settingsOf(chart)
  const carriedByAir = dose.on === 'lbpp-treadmill'
  return {
    painMost: rules.painDuringMost,
    lowerBodyWeightPct: carriedByAir ? rules.lowerBodyWeightPct : 0,
    leastBodyWeightPct: carriedByAir ? treadmill.bodyWeightPct.low : 100,
    lowerSpeedPct: rules.lowerSpeedPct,
    source: sourceOf(chart, 'painDuringMost'),
  }
}
