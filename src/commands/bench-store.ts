import { mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Store } from '../desk/ports.ts'
import { lowdbStore } from '../stores/lowdb.ts'

export type Row = {
  readonly name: string
  readonly ours: number
  readonly reference: number
  readonly ratio: number
  readonly target: number
  readonly met: boolean
}

const atOnce = 16
const files = 500

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
    row('the same, 365 days of history | none', longHistory, ours, 0.8),
  ]
}

/** Appends to files that are kept open, one line at a time, synced: what the disk gives without us. */
async function bareAppends(count: number, seconds: number): Promise<number> {
  return inFolder(async (folder) => {
    const handles = await Promise.all(
      Array.from({ length: count }, (_, i) => open(join(folder, `${i}`), 'a')),
    )
    const line = Buffer.from(`${JSON.stringify(entryOf(0)).padEnd(lineBytes)}\n`)
    const rate = await ratePerSecond(seconds, async (i) => {
      const handle = handles[i % count]
      await handle?.write(line)
      await handle?.datasync()
    })
    await Promise.all(handles.map((handle) => handle.close()))
    return rate
  })
}

/** Bytes of a line of ours that holds one entry: hash, place and the notice included. */
const lineBytes = 430

async function commits(athletes: number, days: number, seconds: number): Promise<number> {
  return inFolder(async (folder) => {
    const store = await lowdbStore(folder)
    const lengths = new Array<number>(athletes).fill(0)
    // Four lines a day is what an athlete leaves behind.
    for (let i = 0; i < athletes; i++)
      for (let line = 0; line < Math.max(1, days * 4); line += 100)
        await commitTo(store, lengths, i, Math.min(100, days * 4))
    const rate = await ratePerSecond(seconds, (i) => commitTo(store, lengths, i % athletes, 1))
    await store.close()
    return rate
  })
}

async function commitTo(store: Store, lengths: number[], athlete: number, entries: number) {
  for (;;) {
    const atLength = lengths[athlete] ?? 0
    const subject = `athlete-${athlete}`
    const answer = await store.commit({
      subject,
      atLength,
      entries: Array.from({ length: Math.max(1, entries) }, (_, i) => entryOf(atLength + i)),
      notices: [],
      dueAt: '2026-03-02T06:30:00.000Z',
      open: true,
    })
    lengths[athlete] = answer.length
    if ('committed' in answer) return
  }
}

function entryOf(number: number) {
  return {
    id: `check-in/athlete/${number}`,
    kind: 'check-in',
    author: 'athlete',
    recordedAt: '2026-03-02T06:30:00.000Z',
    day: '2026-03-02',
    pain: 2,
    swelling: 'none',
    sleepHours: 7.5,
    fatigue: 3,
    words: 'fine after yesterday',
  }
}

async function ratePerSecond(seconds: number, deed: (i: number) => Promise<void>): Promise<number> {
  let done = 0
  const began = performance.now()
  const until = began + seconds * 1000
  const worker = async () => {
    while (performance.now() < until) await deed(done++)
  }
  await Promise.all(Array.from({ length: atOnce }, worker))
  return Math.round(done / ((performance.now() - began) / 1000))
}

async function inFolder<T>(deed: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  try {
    return await deed(folder)
  } finally {
    await rm(folder, { recursive: true })
  }
}

function row(name: string, ours: number, reference: number, target: number): Row {
  const ratio = Math.round((ours / reference) * 100) / 100
  return { name, ours, reference, ratio, target, met: ratio >= target }
}
