import { chainStart, firstBreak, hashOf, type Sealed } from '../chart/chain.ts'
import { type Chart, readChart } from '../chart/chart.ts'
import { Entry } from '../chart/entries.ts'
import { type Store, StoreDamaged } from './ports.ts'

type Kept = { readonly chart: Chart; readonly last: string }

/** Charts in reach: folded once and kept while they are used, so a check-in does not read a season again. */
export type Charts = {
  read(athlete: string): Promise<Chart>
  /** Lets go of a chart: what is kept of it here is no longer so. */
  forget(athlete: string): void
}

/**
 * Reads only what is new since the last look, checks that it follows what was there, and folds it. Keeps the
 * `most` charts used last; the others wait in the store.
 */
export function chartsOf(store: Store, most = 256): Charts {
  const kept = new Map<string, Kept>()

  async function read(athlete: string): Promise<Chart> {
    const before = kept.get(athlete)
    const fresh = await store.read(athlete, before?.chart.entries.length ?? 0)
    const known = beginsAnew(fresh) ? undefined : before
    if (known && fresh.length === 0) return known.chart
    const from = known?.last ?? chainStart
    const broken = firstBreak(fresh, from)
    if (broken !== undefined) throw tampered(athlete, (known?.chart.entries.length ?? 0) + broken)
    const entries = fresh.map((sealed) => Entry.parse(sealed))
    const chart = readChart(athlete, known ? [...known.chart.entries, ...entries] : entries)
    const newest = fresh.at(-1)
    keep(athlete, { chart, last: newest ? hashOf(newest) : from })
    return chart
  }

  function keep(athlete: string, page: Kept): void {
    kept.delete(athlete)
    kept.set(athlete, page)
    const oldest = kept.keys().next().value
    if (kept.size > most && oldest !== undefined) kept.delete(oldest)
  }

  return { read, forget: (athlete) => void kept.delete(athlete) }
}

/** The chart was erased since the last look: what is there now follows nothing that was there. */
function beginsAnew(fresh: readonly Sealed[]): boolean {
  return fresh[0]?.before === chainStart
}

function tampered(athlete: string, position: number): StoreDamaged {
  return new StoreDamaged(
    `Entry ${position + 1} in the chart of ${athlete} does not follow the one before it.`,
  )
}
