import fs from 'node:fs/promises'
import { join } from 'node:path'
import { StoreDamaged } from '../desk/ports.ts'
import { damagedWords } from './chart-file.ts'
import type { Cover } from './cover.ts'
import { disk, syncFolder } from './disk.ts'
import { takeFolder } from './folder.ts'
import { readIndex } from './index-file.ts'
import { type Kept, type KeptCommit, lineOf, readLines } from './line.ts'
import { lowdbStore } from './lowdb.ts'
import type { MovedChart, MovedNotice, Side } from './moving.ts'
import { pathOf, subjectsIn } from './opening.ts'
import { outbox } from './outbox.ts'

const entriesPerLine = 200

/** A data folder as one side of a move. */
export async function lowdbSide(folder: string, cover: Cover): Promise<Side> {
  // A start and a stop leave it tidy: half lines are cut off, and tries that nobody reported are written down.
  await (await lowdbStore(folder, { cover, onDamage: 'refuse' })).close()
  const unlock = takeFolder(folder)
  const charts = join(folder, 'charts')
  const index = await readIndex(join(folder, 'index.json'), disk, cover)
  const dueAt = new Map((index?.charts ?? []).map((row) => [row[0], row[7] === 0 ? undefined : row[7]]))

  return {
    subjects: async () => subjectsIn(charts).toSorted(),

    async chart(subject) {
      const reading = readLines<Kept>(await fs.readFile(pathOf(charts, subject)), subject, cover)
      if (reading.end.is === 'damaged')
        throw new StoreDamaged(damagedWords(subject, reading.end.line, reading.end.why))
      const commits = reading.kept.filter((kept) => 'entries' in kept)
      const last = commits.at(-1) as KeptCommit
      return {
        subject,
        open: last.open,
        dueAt: dueAt.has(subject) ? dueAt.get(subject) : last.dueAt,
        entries: commits.flatMap(({ entries }) => entries),
        notices: noticesOf(subject, reading.kept),
      }
    },

    async put(chart) {
      const path = pathOf(charts, chart.subject)
      let before = chart.subject
      const texts = linesOf(chart).map((kept) => {
        const { text, hash } = lineOf(kept, before, cover)
        before = hash
        return text
      })
      await fs.writeFile(`${path}.new`, texts.join(''), { mode: 0o600, flush: true })
      await fs.rename(`${path}.new`, path)
      dueAt.set(chart.subject, chart.dueAt)
    },

    async close(done) {
      if (done) {
        await syncFolder(disk, charts)
        // What was moved here is not in the index; the next start makes a new one from the charts.
        if ((index?.charts.length ?? 0) < subjectsIn(charts).length)
          await fs.rm(join(folder, 'index.json'), { force: true })
      }
      unlock()
    },
  }
}

function noticesOf(subject: string, kept: readonly Kept[]): MovedNotice[] {
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

function linesOf({ open, dueAt, entries, notices }: MovedChart): Kept[][] {
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
