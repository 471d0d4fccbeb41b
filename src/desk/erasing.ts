import type { EntryOf } from '../chart/entries.ts'
import { isRefusal, type Refusal } from '../rules/decision.ts'
import type { Caller } from '../rules/permissions.ts'
import { type Erasing, eraseChart } from '../rules/retention.ts'
import type { Desk } from './desk.ts'

/** Erases a chart for good: what is left is the tombstone. Somebody who writes in between is read and decided again. */
export async function erase(
  desk: Desk,
  caller: Caller,
  athlete: string,
  erasing: Erasing,
): Promise<EntryOf<'erased'> | Refusal> {
  for (let attempt = 0; attempt < 10; attempt += 1) {
    const chart = await desk.charts.read(athlete)
    const tombstone = eraseChart(chart, erasing, caller, await desk.team(), desk.clock.now())
    if (isRefusal(tombstone)) return tombstone
    const outcome = await desk.store.erase(athlete, tombstone, chart.entries.length)
    desk.charts.forget(athlete)
    if ('committed' in outcome) return tombstone
  }
  return { refused: 'busy', words: 'This chart is being written to. Please try again.' }
}
