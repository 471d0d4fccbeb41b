import { type Chart, prescriptionOf, sessionOf } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'

/** Days up to today on which a run was prescribed and neither logged nor said not to be run, newest first. */
export function unloggedDays(chart: Chart, today: Day): readonly Day[] {
  const days = new Set(chart.prescriptions.map(({ day }) => day))
  return [...days]
    .filter(
      (day) =>
        day <= today &&
        prescriptionOf(chart, day)?.what === 'run' &&
        !sessionOf(chart, day) &&
        !chart.skipped.has(day),
    )
    .toSorted()
    .toReversed()
}
