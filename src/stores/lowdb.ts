import { join } from 'node:path'
import { type Store, StoreClosed, StoreDamaged } from '../desk/ports.ts'
import { atHand } from './at-hand.ts'
import { blankChart, type Edges } from './chart-file.ts'
import { openClaims } from './claims.ts'
import { uncovered } from './cover.ts'
import { notKept, disk as theDisk } from './disk.ts'
import { dueOf } from './due.ts'
import { takeFolder } from './folder.ts'
import { givingWay } from './giving-way.ts'
import { handles } from './handles.ts'
import { type Index, indexRow, readIndex, rowOf, writeIndex } from './index-file.ts'
import { type KeptChart, keptChart } from './kept-chart.ts'
import type { Kept } from './line.ts'
import type { LowdbOptions } from './lowdb-options.ts'
import { findCharts, pathOf } from './opening.ts'
import { noteLostTry, outbox, type Waiting } from './outbox.ts'

/** The charts of a clinic of two thousand stay open over a morning; the system allows four thousand and more. */
const mostOpenFiles = 2048
/** Keys and postings of settled notices that are remembered. */
const mostRemembered = 50_000
/** Commits and outcomes; a start after a crash reads no more than these again, or writes the index at once. */
const keptBetweenIndexes = 8_192
const keptBeforeStart = 1_024
/** Bytes of chart files whose entries stay in memory. Few: the desk keeps what it folded from them. */
const mostBytesInMemory = 2 * 2 ** 20

/**
 * The default store: one append-only file per chart under `folder`/charts, for one process on one machine.
 * Throws `StoreClosed` when another process has the folder or it cannot be written.
 */
export async function lowdbStore(folder: string, options: LowdbOptions = {}): Promise<Store> {
  const unlock = takeFolder(folder)
  try {
    return await openStore(folder, unlock, options)
  } catch (error) {
    unlock()
    throw error
  }
}

async function openStore(folder: string, unlock: () => void, options: LowdbOptions): Promise<Store> {
  const { report = () => {}, onDamage = 'close', disk = theDisk, cover = uncovered } = options
  const indexPath = join(folder, 'index.json')
  const edges: Edges = { disk, cover, report, handles: handles(disk, mostOpenFiles), onKept }
  const box = outbox(mostRemembered)
  const charts = new Map<string, KeptChart>()
  const keepAtHand = atHand(mostBytesInMemory)
  const erasing = new Set<string>()
  const settling = new Map<string, Promise<void>>()
  /** Notices of damaged charts: nobody can say what they tell of until the chart is restored. */
  const aside: Waiting[] = []
  let order = 0
  let keptSinceIndex = 0
  let opened = false
  let indexing: Promise<void> = Promise.resolve()
  let closed = false

  const index = await readIndex(indexPath, disk, cover)
  if (index) takeIndex(index)
  const found = await findCharts(join(folder, 'charts'), index, edges)
  const damaged = found.flatMap((chart) => chart.damaged ?? [])
  if (damaged.length > 0 && onDamage === 'refuse') throw new StoreDamaged(damaged.join('\n'))
  for (const chart of found) {
    charts.set(chart.subject, keptChart(pathOf(join(folder, 'charts'), chart.subject), chart, edges))
    if (chart.damaged !== undefined) aside.push(...box.withdraw(chart.subject))
  }
  const claims = await openClaims(join(folder, 'claims.jsonl'), disk)
  for (const notice of aside) if (claims.mayHaveSent(notice)) noteLostTry(notice)
  await Promise.all([...box.waiting().values()].map(writeDownLostTry))
  await claims.empty()
  if (keptSinceIndex > keptBeforeStart) await saveIndex()
  opened = true

  return {
    async read(subject, from = 0) {
      const kept = chartOf(subject)
      if (kept.chart.damaged === undefined && from === kept.chart.length) return []
      try {
        const entries = await kept.entries()
        keepAtHand(kept)
        return entries.slice(from > entries.length ? 0 : from)
      } finally {
        if (kept.chart.damaged !== undefined) aside.push(...box.withdraw(subject))
      }
    },

    async commit(commit) {
      const kept = chartOf(commit.subject)
      const notices = commit.notices.filter(({ key }) => !box.knows(key))
      charts.set(commit.subject, kept)
      return kept.commit({ ...commit, notices }, (places) => nextOrder(1 + places))
    },

    ...givingWay({ chartOf, box, claims, leftOut: erasing, nextOrder, saveIndex }),

    async index() {
      checkOpen()
      const kept = [...charts.values()].filter(({ chart }) => chart.size > 0 || chart.damaged !== undefined)
      return kept.map(({ chart }) => indexRow(chart))
    },

    async due(now, limit) {
      checkOpen()
      return dueOf(usableCharts(), now, limit)
    },

    async schedule(subject, dueAt, atLength) {
      const { chart } = chartOf(subject)
      if (chart.length === atLength && chart.size > 0) chart.dueAt = dueAt
    },

    async claim(now, leaseUntil, limit, resting) {
      checkOpen()
      const claimed = box.claim(now, leaseUntil, limit, resting)
      if (claimed.length === 0) return []
      try {
        await claims.note(claimed.map(({ notice }) => ({ key: notice.key, order })))
      } catch (error) {
        // A full disk must not silence a call: sent again after a crash is better than not sent.
        report({ file: 'claims.jsonl', words: notKept(error).words })
      }
      return claimed
    },

    async settle(key, outcome) {
      checkOpen()
      const notice = box.find(key)
      if (!notice || ('retryAt' in outcome && notice.heldUntil === undefined)) return
      const place = nextOrder(1)
      const onItsWay =
        settling.get(key) ?? chartOf(notice.subject).append({ order: place, settled: key, outcome })
      settling.set(key, onItsWay)
      try {
        await onItsWay
      } catch (error) {
        // Not kept, but true: the lane goes on. After a crash this notice counts as one that may have been sent.
        box.settle(key, outcome, place)
        throw error
      } finally {
        settling.delete(key)
      }
      if (claims.areLong() && !box.anyHeld()) await claims.empty()
    },

    async receipt(surface) {
      checkOpen()
      return box.posted().get(surface)?.receipt
    },

    async waiting() {
      checkOpen()
      return box.waiting().size
    },

    async nextTry(resting) {
      checkOpen()
      return box.nextTry(resting)
    },

    async close() {
      if (closed) return
      closed = true
      await Promise.all([...charts.values()].map((kept) => kept.quiet()))
      await indexing.then(saveIndex)
      if (!box.anyHeld()) await claims.empty()
      await Promise.all([edges.handles.close(), claims.close()])
      unlock()
    },
  }

  function chartOf(subject: string): KeptChart {
    checkOpen()
    const kept = charts.get(subject)
    return kept ?? keptChart(pathOf(join(folder, 'charts'), subject), blankChart(subject), edges)
  }

  function checkOpen() {
    if (closed) throw new StoreClosed('The store is closed.')
  }

  function* usableCharts() {
    for (const { chart } of charts.values()) if (chart.damaged === undefined) yield chart
  }

  function onKept(subject: string, kept: readonly Kept[]) {
    for (const each of kept) {
      order = Math.max(order, each.order)
      if ('settled' in each) box.settle(each.settled, each.outcome, each.order)
      else
        for (const [i, notice] of each.notices.entries()) {
          const place = each.order + 1 + i
          order = Math.max(order, place)
          box.queue({ subject, order: place, notice, tries: 0, unknown: false })
        }
    }
    keptSinceIndex += kept.length
    if (!opened || keptSinceIndex < keptBetweenIndexes) return
    keptSinceIndex = 0
    indexing = indexing
      .then(saveIndex)
      .catch((error) => report({ file: 'index.json', words: notKept(error).words }))
  }

  /** A try that the process before did not live to report is kept as one whose end is not known. */
  async function writeDownLostTry(notice: Waiting) {
    const { key, queuedAt } = notice.notice
    if (!claims.mayHaveSent(notice)) return
    const outcome = { retryAt: notice.retryAt ?? queuedAt, why: 'no word of the last try', unknown: true }
    try {
      await chartOf(notice.subject).append({ order: nextOrder(1), settled: key, outcome })
    } catch (error) {
      noteLostTry(notice)
      report({ file: 'claims.jsonl', words: notKept(error).words })
    }
  }

  function nextOrder(places: number): number {
    const first = order + 1
    order += places
    return first
  }

  function takeIndex(known: Index) {
    order = known.order
    box.recall(known)
    for (const notice of known.waiting) box.queue(notice)
  }

  async function saveIndex() {
    const rows = [...charts.values()]
      .filter(({ chart }) => chart.size > 0 && !erasing.has(chart.subject))
      .map(({ chart }) => rowOf(chart))
    const waiting = [...box.waiting().values(), ...aside].map(({ heldUntil: _, ...notice }) => notice)
    const remembered = { settled: [...box.settled()], posted: [...box.posted()] }
    await writeIndex(indexPath, { version: 1, order, charts: rows, waiting, ...remembered }, cover)
  }
}
