import { type Chart, readChart } from '../chart/chart.ts'
import { Entry } from '../chart/entries.ts'
import type { Store } from './ports.ts'

/** Charts in reach: folded once and kept while they are used, so a check-in does not read a season again. */
export type Charts = { read(athlete: string): Promise<Chart> }

/**
 * Reads only what is new since the last look and folds it. That it is what was written, the store has checked against
 * its hashes. Keeps the `most` charts used last; the others wait in the store.
 */
export function chartsOf(store: Store, most = 256): Charts {
  const kept = new Map<string, Chart>()

  async function read(athlete: string): Promise<Chart> {
    const known = kept.get(athlete)
    const fresh = await store.read(athlete, known?.entries.length ?? 0)
    if (known && fresh.length === 0) return known
    const entries = fresh.map((sealed) => Entry.parse(sealed))
    const chart = readChart(athlete, known ? [...known.entries, ...entries] : entries)
    keep(athlete, chart)
    return chart
  }

  function keep(athlete: string, chart: Chart): void {
    kept.delete(athlete)
    kept.set(athlete, chart)
    const oldest = kept.keys().next().value
    if (kept.size > most && oldest !== undefined) kept.delete(oldest)
  }

  return { read }
}
