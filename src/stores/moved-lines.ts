import type { Kept, KeptCommit } from './line.ts'
import type { MovedChart, MovedNotice } from './moving.ts'
import { outbox } from './outbox.ts'

const entriesPerLine = 200

/** The notices of a chart with what became of each, found in the lines of its file. */
export function noticesOf(subject: string, kept: readonly Kept[]): MovedNotice[] {
  const box = outbox()
  const moved = new Map<string, MovedNotice>()
  for (const each of kept) {
    if ('entries' in each)
      for (const [i, notice] of each.notices.entries()) {
        if (moved.has(notice.key)) continue
        const place = each.order + 1 + i
        box.queue({ subject, order: place, notice, tries: 0, unknown: false })
        moved.set(notice.key, { place, notice, tries: 0, unknown: false, retryAt: undefined, end: undefined })
      }
    else {
      const waiting = box.find(each.settled)
      const before = moved.get(each.settled)
      if (!waiting || !before) continue
      box.settle(each.settled, each.outcome, each.order)
      const { tries, unknown, retryAt } = waiting
      const end = 'retryAt' in each.outcome ? undefined : { outcome: each.outcome, place: each.order }
      moved.set(each.settled, { ...before, tries, unknown, retryAt, end })
    }
  }
  return [...moved.values()].toSorted((a, b) => a.place - b.place)
}

/** The lines of a file that holds a chart and its notices, each in its place in the queue of all. */
export function linesOf({ open, dueAt, entries, notices }: MovedChart): Kept[][] {
  const turn = { order: 0, entries: [], notices: [], dueAt, open } as unknown as KeptCommit
  const lines: Kept[][] = []
  for (let from = 0; from < entries.length; from += entriesPerLine)
    lines.push([{ ...turn, entries: entries.slice(from, from + entriesPerLine) }])
  for (const { place, notice, tries, unknown, retryAt, end } of notices) {
    const tried = { retryAt: retryAt ?? notice.queuedAt, why: 'before the move', unknown }
    lines.push([
      { ...turn, order: place - 1, notices: [notice] },
      ...Array.from({ length: end ? 0 : tries }, () => ({
        order: place,
        settled: notice.key,
        outcome: tried,
      })),
      ...(end ? [{ order: end.place, settled: notice.key, outcome: end.outcome }] : []),
    ])
  }
  return lines.length > 0 ? lines : [[turn]]
}
