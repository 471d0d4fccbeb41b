import { chainStart, type Sealed, seal } from '../chart/chain.ts'
import type { Notice } from '../chart/notices.ts'
import {
  type Blanking,
  type Commit,
  type Committed,
  type Moved,
  StoreClosed,
  StoreDamaged,
  type Tombstone,
} from '../desk/ports.ts'
import { blanked } from './blanking.ts'
import { type Chart, chartDocument, type Edges, type Fresh } from './chart-file.ts'
import { replaceChart, replaceEntries } from './erasure.ts'
import type { KeptOutcome } from './line.ts'

export type KeptChart = ReturnType<typeof keptChart>

/** One chart in use: what is read or written of it happens one after the other, and what waits shares one write. */
export function keptChart(path: string, chart: Chart, edges: Edges) {
  const document = chartDocument(path, chart, edges)
  /** The chart as it will be when everything that waits is written. */
  let ahead = { length: chart.length, last: chart.last }
  let busy: Promise<void> = Promise.resolve()
  let next: Promise<void> | undefined
  let failures = 0

  return {
    chart,

    async entries(): Promise<readonly Sealed[]> {
      if (chart.damaged !== undefined) throw new StoreDamaged(chart.damaged)
      if (!chart.entries) await inTurn(() => document.read())
      return chart.entries ?? []
    },

    async commit(commit: Commit, order: (notices: number) => number): Promise<Committed | Moved> {
      if (chart.damaged !== undefined) throw new StoreClosed(chart.damaged)
      // A commit that is on its way may yet fail: only its end tells whether the chart has moved.
      while (ahead.length !== commit.atLength && ahead.length !== chart.length) await busy
      if (ahead.length !== commit.atLength) return { moved: true, length: ahead.length }
      const { sealed, last } = seal(commit.entries, ahead.last)
      const length = ahead.length + sealed.length
      ahead = { length, last }
      const { dueAt, open } = commit
      // What waits is nobody else's object.
      const notices =
        commit.notices.length > 0 ? (JSON.parse(JSON.stringify(commit.notices)) as Notice[]) : []
      const kept = {
        order: order(notices.length),
        entries: sealed as object[] as Sealed[],
        notices,
        dueAt,
        open,
      }
      await append({ kept, text: JSON.stringify(kept), last })
      return { committed: true, length }
    },

    append: (kept: KeptOutcome) => append({ kept, text: JSON.stringify(kept) }),

    /**
     * Puts a tombstone in the place of the chart. `ready` runs before the file changes: what it throws leaves all as it
     * was. Whoever wants to write meanwhile waits and finds that the chart has moved on.
     */
    async erase(
      tombstone: Tombstone,
      atLength: number,
      order: () => number,
      ready: () => Promise<void>,
    ): Promise<Committed | Moved> {
      if (chart.damaged !== undefined) throw new StoreClosed(chart.damaged)
      while (ahead.length !== atLength && ahead.length !== chart.length) await busy
      if (ahead.length !== atLength) return { moved: true, length: ahead.length }
      const { sealed, last } = seal([tombstone], chainStart)
      ahead = { length: 1, last }
      try {
        await inTurn(async () => {
          if (chart.length !== atLength) throw new StoreClosed('The write before this one failed.')
          await ready()
          const entries = sealed as object[] as Sealed[]
          await replaceChart(
            { path, chart, edges },
            {
              order: order(),
              entries,
              notices: [],
              dueAt: null,
              open: false,
            },
          )
        })
      } catch (error) {
        ahead = { length: chart.length, last: chart.last }
        throw error
      }
      return { committed: true, length: 1 }
    },

    /** The same for single entries: the chart stays, with tombstones in their places. */
    async blank(
      blanking: Blanking,
      atLength: number,
      ready: () => Promise<void>,
    ): Promise<Committed | Moved> {
      if (chart.damaged !== undefined) throw new StoreClosed(chart.damaged)
      await busy
      if (!chart.entries) await inTurn(() => document.read())
      const entries = chart.entries ?? []
      if (ahead.length !== atLength || entries.length !== atLength)
        return { moved: true, length: ahead.length }
      const { sealed, last } = blanked(entries, blanking)
      ahead = { length: sealed.length, last }
      try {
        await inTurn(async () => {
          if (chart.length !== atLength) throw new StoreClosed('The write before this one failed.')
          await ready()
          await replaceEntries({ path, chart, edges }, sealed, blanking.naming)
        })
      } catch (error) {
        ahead = { length: chart.length, last: chart.last }
        throw error
      }
      return { committed: true, length: sealed.length }
    },

    /** Waits for everything that is on its way. */
    quiet: () => busy,
  }

  function append(fresh: Fresh): Promise<void> {
    if (chart.damaged !== undefined) throw new StoreClosed(chart.damaged)
    chart.fresh.push(fresh)
    const before = failures
    next ??= inTurn(() => writeFresh(before))
    return next
  }

  async function writeFresh(failuresBefore: number) {
    if (failures !== failuresBefore)
      throw new StoreClosed('The write before this one failed. Nothing of this was kept.')
    next = undefined
    try {
      await document.write()
    } catch (error) {
      // Whatever came to wait meanwhile follows entries that are not there.
      failures += 1
      chart.fresh = []
      next = undefined
      ahead = { length: chart.length, last: chart.last }
      throw error
    }
  }

  function inTurn(deed: () => Promise<void>): Promise<void> {
    const done = busy.then(deed)
    busy = done.catch(() => {})
    return done
  }
}
