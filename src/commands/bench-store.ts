import { mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { lowdbStore } from '../stores/lowdb.ts'
import { commitTo, entryOf, type Row, ratePerSecond, row } from './bench-commits.ts'

const atOnce = 16
const files = 500
/** Bytes of a line of ours that holds one such entry. */
const lineBytes = 430

/** Commits a second into the default store, against the disk itself and against its own smallest case. */
export async function rows(seconds = 3): Promise<Row[]> {
  const reference = await bareAppends(files, seconds)
  const ours = await commits(files, 0, seconds)
  const small = await commits(1, 0, seconds)
  const manyAthletes = await commits(10_000, 0, seconds)
  const longHistory = await commits(files, 365, seconds)
  return [
    row('commits a second, 16 at a time, 500 charts | bare append and fdatasync', ours, reference, 0.7),
    row('the same, 10,000 charts | 1 chart', manyAthletes, small, 0.8),
    row('the same, 500 charts, 365 days of history | none', longHistory, ours, 0.8),
  ]
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
