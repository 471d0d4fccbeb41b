import { chainStart, type Sealed } from '../chart/chain.ts'
import { type Chart, readChart } from '../chart/chart.ts'
import { Entry } from '../chart/entries.ts'
import type { Store } from './ports.ts'

/** Charts in reach: folded once and kept while they are used, so a check-in does not read a season again. */
export type Charts = {
  read(athlete: string): Promise<Chart>
  /** The same for whoever goes through many: what was not in reach before is not kept, and pushes nothing out. */
  glance(athlete: string): Promise<Chart>
  /** Lets go of a chart: what is kept of it here is no longer so. */
  forget(athlete: string): void
  /** The chart as a commit of ours has just left it: nobody needs to read that back. */
  wrote(chart: Chart): void
}

/** What a chart weighs beside its entries. */
const chartItself = 10

/**
 * Reads only what is new since the last look and folds it. That it is what was written, the store has checked against
 * its hashes. Keeps the charts used last, up to about `mostEntries` in all: a clinic of a thousand on an ordinary
 * morning, or some hundreds in the middle of long episodes. The others wait in the store.
 */
export function chartsOf(store: Store, mostEntries = 100_000): Charts {
  const kept = new Map<string, Chart>()
  let weight = 0

  async function read(athlete: string): Promise<Chart> {
    const before = kept.get(athlete)
    const fresh = await store.read(athlete, before?.entries.length ?? 0)
    const known = beginsAnew(fresh) ? undefined : before
    if (known && fresh.length === 0) return keep(known)
    const entries = fresh.map((sealed) => Entry.parse(sealed))
    return keep(readChart(athlete, known ? [...known.entries, ...entries] : entries))
  }

  async function glance(athlete: string): Promise<Chart> {
    if (kept.has(athlete)) return read(athlete)
    const entries = await store.read(athlete)
    return readChart(
      athlete,
      entries.map((sealed) => Entry.parse(sealed)),
    )
  }

  function wrote(chart: Chart): void {
    const known = kept.get(chart.athlete)
    if (!known || known.entries.length < chart.entries.length) keep(chart)
  }

  function keep(chart: Chart): Chart {
    forget(chart.athlete)
    kept.set(chart.athlete, chart)
    weight += chart.entries.length + chartItself
    for (const oldest of kept.keys()) {
      if (weight <= mostEntries || oldest === chart.athlete) break
      forget(oldest)
    }
    return chart
  }

  function forget(athlete: string): void {
    const chart = kept.get(athlete)
    if (!chart) return
    weight -= chart.entries.length + chartItself
    kept.delete(athlete)
  }

  return { read, glance, forget, wrote }
}

/** The chart was erased since the last look: what is there now follows nothing that was there. */
function beginsAnew(fresh: readonly Sealed[]): boolean {
  return fresh[0]?.before === chainStart
}
