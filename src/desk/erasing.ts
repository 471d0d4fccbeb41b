import type { EntryOf } from '../chart/entries.ts'
import { ClinicEntry, clinicSubject } from '../chart/roster.ts'
import { isRefusal, type Refusal } from '../rules/decision.ts'
import { eraseFromJournal } from '../rules/journal-erasure.ts'
import { type Caller, may } from '../rules/permissions.ts'
import { type Erasing, eraseChart } from '../rules/retention.ts'
import type { Desk } from './desk.ts'

/** What came of an erasure. `journal`: how many entries of the clinic's own journal gave way, or why none did. */
export type Erasure = {
  readonly erased: EntryOf<'erased'>
  readonly journal: number | 'worked-here'
}

const mostAttempts = 10
const busy: Refusal = { refused: 'busy', words: 'This chart is being written to. Please try again.' }

/**
 * Erases a chart for good, and then the athlete from the clinic's journal. Done again after a crash in between, it does
 * what is left to do. Somebody who writes in between is read and decided again.
 */
export async function erase(
  desk: Desk,
  caller: Caller,
  athlete: string,
  erasing: Erasing,
): Promise<Erasure | Refusal> {
  for (let attempt = 0; attempt < mostAttempts; attempt += 1) {
    const chart = await desk.charts.read(athlete)
    const [only, ...more] = chart.entries
    if (only?.kind === 'erased' && more.length === 0 && may(caller, 'erased', chart)) {
      const finished = await finish(desk, only)
      if (isRefusal(finished) || finished.journal !== 0) return finished
    }
    const tombstone = eraseChart(chart, erasing, caller, await desk.team(), desk.clock.now())
    if (isRefusal(tombstone)) return tombstone
    const outcome = await desk.store.erase(athlete, tombstone, chart.entries.length)
    desk.charts.forget(athlete)
    if ('committed' in outcome) return finish(desk, tombstone)
  }
  return busy
}

async function finish(desk: Desk, erased: EntryOf<'erased'>): Promise<Erasure | Refusal> {
  for (let attempt = 0; attempt < mostAttempts; attempt += 1) {
    const journal = (await desk.store.read(clinicSubject)).map((entry) => ClinicEntry.parse(entry))
    const gives = eraseFromJournal(journal, erased)
    if (gives === undefined) return { erased, journal: 0 }
    if (gives === 'worked-here') return { erased, journal: gives }
    const blanking = { ...gives, naming: erased.athlete }
    const outcome = await desk.store.blank(clinicSubject, blanking, journal.length)
    if ('committed' in outcome) return { erased, journal: gives.places.size }
  }
  return busy
}
