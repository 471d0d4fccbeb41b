import type { Chart } from '../chart/chart.ts'
import type { EntryOf } from '../chart/entries.ts'

/** Which amendment struck which entry: what was struck goes out too, marked as entered in error. */
export function amendmentsOf(chart: Chart): ReadonlyMap<string, EntryOf<'amendment'>> {
  return new Map(
    chart.entries.flatMap((entry) => (entry.kind === 'amendment' ? [[entry.strikes, entry] as const] : [])),
  )
}
