import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openDesk } from '../desk/desk.ts'
import { openLibrary } from '../desk/library.ts'
import { makeRounds } from '../desk/rounds.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { fillClinic, today, tomorrowMorning } from './bench-clinic.ts'
import { type Row, under } from './bench-row.ts'
import { liveSeason } from './season.ts'

const athletes = 10_000

/** A round with nothing to do, and the morning on which all of a large clinic is asked at once. */
export async function rows(): Promise<Row[]> {
  const season = await liveSeason(1, today())
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  const store = await lowdbStore(folder)
  try {
    await fillClinic(store, season, { count: athletes, open: true, dueAt: tomorrowMorning() })
    const library = openLibrary('shared')
    let now = `${today()}T12:00:00.000Z`
    const notNow = async () => ({ failed: 'not in a benchmark', outcome: 'not sent' as const })
    const face = { deliver: notNow, find: async () => 'absent' as const }
    const clock = { now: () => now }
    const desk = openDesk({ store, face, clock, library, clinic: library.clinic, report: () => {} })
    const idle: number[] = []
    for (let i = 0; i < 50; i += 1) idle.push(await timed(() => makeRounds(desk)))
    now = tomorrowMorning()
    const morningMs = await timed(() => makeRounds(desk))
    if ((await store.waiting()) < athletes) throw new Error('not everybody was asked')
    return [
      under(`a round with nothing due, ${athletes} athletes (median of 50)`, median(idle), 5, { unit: 'ms' }),
      under(
        `a morning of ${athletes} athletes in one zone, decided, queued and synced`,
        morningMs / 1000,
        5,
        {
          unit: 's',
        },
      ),
    ]
  } finally {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  }
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now()
  await work()
  return performance.now() - began
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
}
