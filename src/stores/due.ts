import type { Instant } from '../chart/day.ts'

type Due = { readonly subject: string; readonly dueAt: Instant | null | undefined }

/** Subjects that are due at `now`, earliest first; those whose time is not known come before all others. */
export function dueOf(charts: Iterable<Due>, now: Instant, limit: number): string[] {
  const due: Due[] = []
  for (const chart of charts) if (chart.dueAt !== null && (chart.dueAt ?? now) <= now) due.push(chart)
  due.sort(({ dueAt: a = '' }, { dueAt: b = '' }) => ((a ?? '') < (b ?? '') ? -1 : a === b ? 0 : 1))
  return due.slice(0, limit).map(({ subject }) => subject)
}
