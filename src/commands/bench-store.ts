import { mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { lowdbStore } from '../stores/lowdb.ts'
import { commitTo, entryOf, ratePerSecond } from './bench-commits.ts'
import { type Row, reaches } from './bench-row.ts'

const atOnce = 16
const files = 500
/** Bytes of a line of ours that holds one such entry. */
const lineBytes = 430

/** Commits a second into the default store, against the disk itself and against its own smallest case. */
export async function rows(seconds = 2): Promise<Row[]> {
  const [reference, ours] = await inTurns(
    () => bareAppends(files, seconds),
    () => commits(files, 0, seconds),
  )
  const [small, manyAthletes] = await inTurns(
    () => commits(1, 0, seconds),
    () => commits(10_000, 0, seconds),
  )
  const [short, longHistory] = await inTurns(
    () => commits(files, 0, seconds),
    () => commits(files, 365, seconds),
  )
  return [
    reaches(
      'commits a second, 16 at a time, 500 charts, beside bare append and fdatasync',
      ours,
      reference,
      0.7,
    ),
    reaches('the same, 10,000 charts, beside 1 chart', manyAthletes, small, 0.8),
    reaches('the same, 500 charts, 365 days of history, beside none', longHistory, short, 0.8),
  ]
}

/** Both measured three times, one after the other, so that a busy minute of the machine meets both. */
async function inTurns(a: () => Promise<number>, b: () => Promise<number>): Promise<[number, number]> {
  const turns = 3
  let [ofA, ofB] = [0, 0]
  for (let turn = 0; turn < turns; turn++) {
    ofA += (await a()) / turns
    ofB += (await b()) / turns
  }
  return [Math.round(ofA), Math.round(ofB)]
}

/** Appends to files that are kept open, one line at a time, synced: what the disk gives without us. */
async function bareAppends(count: number, seconds: number): Promise<number> {
  return inFolder(async (folder) => {
    const handles = await Promise.all(
      Array.from({ length: count }, (_, i) => open(join(folder, `${i}`), 'a')),
    )
    const line = Buffer.from(`${JSON.stringify(entryOf(0)).padEnd(lineBytes)}\n`)
    const rate = await ratePerSecond(atOnce, seconds, async (i) => {
      const handle = handles[i % count]
      await handle?.write(line)
      await handle?.datasync()
    })
    await Promise.all(handles.map((handle) => handle.close()))
    return rate
  })
}

async function commits(athletes: number, days: number, seconds: number): Promise<number> {
  return inFolder(async (folder) => {
    const store = await lowdbStore(folder)
    const lengths = new Array<number>(athletes).fill(0)
    // Four entries a day is what an athlete leaves behind.
    for (let i = 0; i < athletes; i++) await commitTo(store, lengths, i, Math.max(1, days * 4))
    const rate = await ratePerSecond(atOnce, seconds, (i) => commitTo(store, lengths, i % athletes, 1))
    await store.close()
    return rate
  })
}

async function inFolder<T>(deed: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  try {
    return await deed(folder)
  } finally {
    await rm(folder, { recursive: true })
  }
}
