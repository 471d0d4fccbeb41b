import type { Chart } from '../chart/chart.ts'
import { type Instant, minutesBetween } from '../chart/day.ts'

const repeatMinutes = 10

/** The same again by the same person within minutes: a form that was sent twice is written once. */
export function isRepeated(
  chart: Chart,
  unsigned: { readonly kind: string },
  by: string,
  now: Instant,
): boolean {
  const last = chart.entries.findLast((entry) => entry.kind === unsigned.kind)
  if (unsigned.kind === 'hold' || last?.author !== by) return false
  if (minutesBetween(last.recordedAt, now) > repeatMinutes || isStruck(chart, last.id)) return false
  const { id: _, recordedAt: __, author: ___, ...before } = last
  return canonical(before) === canonical(unsigned)
}

function isStruck(chart: Chart, id: string): boolean {
  return chart.entries.some((entry) => entry.kind === 'amendment' && entry.strikes === id)
}

/** The same text for the same content, whatever the order of the keys. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_, part) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  )
}
