import type { Chart } from '../chart/chart.ts'
import { type Day, plusDays } from '../chart/day.ts'

/** A week with fewer answered mornings than this is not compared: missing answers are not averaged over. */
const fewestMornings = 4

/**
 * How much the worst morning of the seven days that end on a day is above the worst of the seven before; negative
 * when it fell. Undefined before two weeks of mornings have passed; not known when too many were not answered.
 */
export function climbOver(chart: Chart, asOf: Day): number | 'not known' | undefined {
  const first = chart.checkIns[0]
  const start = plusDays(asOf, -13)
  if (!first || first.day > start) return undefined
  const middle = plusDays(asOf, -6)
  const week = { worst: 0, mornings: 0 }
  const earlier = { worst: 0, mornings: 0 }
  for (let i = chart.checkIns.length - 1; i >= 0; i -= 1) {
    const morning = chart.checkIns[i]
    if (!morning || morning.day < start) break
    if (morning.day > asOf) continue
    const into = morning.day >= middle ? week : earlier
    into.mornings += 1
    into.worst = Math.max(into.worst, morning.morningPain)
  }
  if (week.mornings < fewestMornings || earlier.mornings < fewestMornings) return 'not known'
  return week.worst - earlier.worst
}
