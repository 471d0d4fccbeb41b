import { chainStart, type Sealed, seal } from '../chart/chain.ts'
import type { Instant } from '../chart/day.ts'
import { type Commit, type Store, StoreClosed } from '../desk/ports.ts'
import { blanked } from './blanking.ts'
import { dueOf } from './due.ts'
import { type Outbox, outbox } from './outbox.ts'
import { checkedSubject } from './subject.ts'

type Chart = { entries: Sealed[]; last: string; open: boolean; dueAt: Instant | null | undefined }

/** What a memory store holds. Handed to another one it plays a restart. */
export type Memory = { readonly charts: Map<string, Chart>; readonly box: Outbox; order: number }
export const emptyMemory = (): Memory => ({ charts: new Map(), box: outbox(), order: 0 })

/** A store that keeps everything in memory, and nothing after the process ends. */
export function memoryStore(memory: Memory = emptyMemory()): Store {
  const { charts, box } = memory
  let closed = false
  box.letGoOfHeld()

  return {
    async read(subject, from = 0) {
      checkOpen()
      const entries = charts.get(checkedSubject(subject))?.entries ?? []
      return entries.slice(from > entries.length ? 0 : from)
    },

    async commit(commit) {
      checkOpen()
      const chart = charts.get(checkedSubject(commit.subject)) ?? blank()
      if (chart.entries.length !== commit.atLength) return { moved: true, length: chart.entries.length }
      const { entries, notices } = copyOf(commit)
      const { sealed, last } = seal(entries, chart.last)
      chart.entries.push(...(sealed as Sealed[]))
      Object.assign(chart, { last, open: commit.open, dueAt: commit.dueAt })
      charts.set(commit.subject, chart)
      for (const notice of notices) {
        memory.order += 1
        box.queue({ subject: commit.subject, order: memory.order, notice, tries: 0, unknown: false })
      }
      return { committed: true, length: chart.entries.length }
    },

    async erase(subject, tombstone, atLength) {
      checkOpen()
      const chart = charts.get(checkedSubject(subject)) ?? blank()
      if (chart.entries.length !== atLength) return { moved: true, length: chart.entries.length }
      const { sealed, last } = seal([structuredClone(tombstone)], chainStart)
      charts.set(subject, { entries: sealed as object[] as Sealed[], last, open: false, dueAt: null })
      box.erase(subject)
      return { committed: true, length: 1 }
    },

    async blank(subject, blanking, atLength) {
      checkOpen()
      const chart = charts.get(checkedSubject(subject)) ?? blank()
      if (chart.entries.length !== atLength) return { moved: true, length: chart.entries.length }
      const { sealed, last } = blanked(chart.entries, structuredClone(blanking))
      charts.set(subject, { ...chart, entries: sealed, last })
      box.forget(subject, blanking.naming)
      return { committed: true, length: sealed.length }
    },

    async index() {
      checkOpen()
      return [...charts].map(([subject, { entries, last, open, dueAt }]) => {
        return { subject, length: entries.length, last, open, dueAt }
      })
    },

    async due(now, limit) {
      checkOpen()
      return dueOf(
        [...charts].map(([subject, { dueAt }]) => ({ subject, dueAt })),
        now,
        limit,
      )
    },

    async schedule(subject, dueAt, atLength) {
      checkOpen()
      const chart = charts.get(checkedSubject(subject))
      if (chart?.entries.length === atLength) chart.dueAt = dueAt
    },

    async claim(now, leaseUntil, limit, resting) {
      checkOpen()
      return box.claim(now, leaseUntil, limit, resting)
    },

    async settle(key, outcome) {
      checkOpen()
      if ('retryAt' in outcome && box.find(key)?.heldUntil === undefined) return
      memory.order += 1
      box.settle(key, outcome, memory.order)
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
      closed = true
    },
  }

  function checkOpen() {
    if (closed) throw new StoreClosed('The store is closed.')
  }
}

const blank = (): Chart => ({ entries: [], last: chainStart, open: true, dueAt: null })

/** What is kept is what JSON keeps, and nobody else's object. */
const copyOf = ({ entries, notices }: Commit) =>
  JSON.parse(JSON.stringify({ entries, notices })) as Pick<Commit, 'entries' | 'notices'>
