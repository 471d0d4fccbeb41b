import type { FileHandle } from 'node:fs/promises'
import { dirname } from 'node:path'
import { type Adapter, Low } from 'lowdb'
import { chainStart, hashOf, type Sealed } from '../chart/chain.ts'
import type { Instant } from '../chart/day.ts'
import { StoreClosed, StoreDamaged } from '../desk/ports.ts'
import type { Cover } from './cover.ts'
import { type Disk, isFull, notKept, notRead, type Report, syncFolder, writeAll } from './disk.ts'
import type { Handles } from './handles.ts'
import { type Kept, type KeptCommit, lineOfTexts, readLines } from './line.ts'

/** A chart in memory: always where its file ends, its entries only while somebody needs them. */
export type Chart = {
  readonly subject: string
  length: number
  last: string
  open: boolean
  dueAt: Instant | null | undefined
  /** Lines, bytes and the last hash of the file. */
  lines: number
  size: number
  hash: string
  entries?: Sealed[]
  /** What the next write shall append. */
  fresh: Fresh[]
  /** Why nothing more may be written until the bot is started again. */
  shut?: string
  /** Why nothing of it may be used until it is restored. */
  damaged?: string
}

/** Something to append: as it is, as the text that goes to the file, and the hash of its last entry. */
export type Fresh = { readonly kept: Kept; readonly text: string; readonly last?: string }

export type Edges = {
  readonly disk: Disk
  readonly handles: Handles
  readonly cover: Cover
  readonly report: Report
  /** Hears of everything that is kept, in the same breath as the chart grows. */
  readonly onKept: (subject: string, kept: readonly Kept[]) => void
}

export function blankChart(subject: string): Chart {
  return {
    subject,
    length: 0,
    last: chainStart,
    open: true,
    dueAt: null,
    lines: 0,
    size: 0,
    hash: subject,
    fresh: [],
  }
}

/** A chart as a lowdb document: `write` appends what is fresh, `read` fills in the entries from the file. */
export function chartDocument(path: string, chart: Chart, edges: Edges): Low<Chart> {
  return new Low(chartFile(path, chart, edges), chart)
}

/** Takes in what a file holds. */
export function turn(chart: Chart, kept: readonly Kept[]) {
  let last: Sealed | undefined
  for (const commit of kept) {
    if (!('entries' in commit)) continue
    chart.length += commit.entries.length
    chart.open = commit.open
    chart.dueAt = commit.dueAt
    last = commit.entries.at(-1) ?? last
  }
  if (last) chart.last = hashOf(last)
}

const untilRestart = 'This chart stays closed for writing until the bot is started again.'

/** Takes in what was just written; whoever committed it may change the objects, so entries come from the text. */
function grow(chart: Chart, { kept, text, last }: Fresh) {
  if (!('entries' in kept)) return
  chart.length += kept.entries.length
  chart.last = last ?? chart.last
  chart.open = kept.open
  chart.dueAt = kept.dueAt
  if (chart.entries) chart.entries.push(...(JSON.parse(text) as KeptCommit).entries)
}

/** The words for damage that no restart mends. */
export function damagedWords(subject: string, line: number, why: string): string {
  return (
    `charts/${subject}.jsonl, line ${line}: ${why}. Nothing is read from or written to this chart until it is ` +
    `restored: stop the bot, look with "sanderling store verify", then run "sanderling store restore ${subject}".`
  )
}

function chartFile(
  path: string,
  chart: Chart,
  { disk, handles, cover, report, onKept }: Edges,
): Adapter<Chart> {
  return {
    async read() {
      const bytes = await handles.glance(path, wholeFile).catch((error) => {
        throw notRead(error)
      })
      const reading = readLines<Kept>(bytes, chart.subject, cover)
      if (reading.end.is === 'damaged') throw damage(reading.end.line, reading.end.why)
      if (reading.hash !== chart.hash) throw damage(reading.lines + 1, 'lines that were kept are missing')
      chart.entries = reading.kept.flatMap((kept) => ('entries' in kept ? kept.entries : []))
      return chart
    },

    async write() {
      const fresh = chart.fresh
      // lowdb leaves the change in memory when a write fails; here a chart is never ahead of its file.
      chart.fresh = []
      if (chart.shut !== undefined) throw new StoreClosed(chart.shut)
      const texts = fresh.map(({ text }) => text)
      const { text, hash } = lineOfTexts(texts, chart.hash, cover)
      const bytes = Buffer.from(text)
      try {
        await (chart.size === 0 ? create(bytes) : handles.use(path, (handle) => append(handle, bytes)))
      } catch (error) {
        throw notKept(error)
      }
      Object.assign(chart, { lines: chart.lines + 1, size: chart.size + bytes.length, hash })
      for (const each of fresh) grow(chart, each)
      onKept(
        chart.subject,
        fresh.map(({ kept }) => kept),
      )
    },
  }

  async function wholeFile(handle: FileHandle): Promise<Buffer> {
    const bytes = Buffer.allocUnsafe(chart.size)
    const { bytesRead } = await handle.read(bytes, 0, chart.size, 0)
    return bytes.subarray(0, bytesRead)
  }

  async function append(handle: FileHandle, bytes: Buffer) {
    try {
      await writeAll(handle, bytes, chart.size)
      // A file that was deleted or replaced takes writes without complaint and keeps nothing.
      if (disk.sizeOf(path) !== chart.size + bytes.length)
        throw Object.assign(new Error('replaced'), { code: 'ENOENT' })
    } catch (error) {
      await cutBack(handle)
      // After any failure but a full disk nobody knows what is on it: what a later sync says is not to be trusted.
      if (!isFull(error)) shut(`${notKept(error).words} ${untilRestart}`)
      throw error
    }
  }

  async function cutBack(handle: FileHandle) {
    try {
      await handle.truncate(chart.size)
      await handle.datasync()
    } catch {
      shut(`A write was left half done. ${untilRestart}`)
    }
  }

  /** A new file appears under its name only with its first line in it: an empty chart is always damage. */
  async function create(bytes: Buffer) {
    const unnamed = `${path}.new`
    try {
      if (await exists(disk, path)) throw new Error('a file that nobody knows is in the way')
      const handle = await disk.open(unnamed, 'w', 0o600)
      try {
        await writeAll(handle, bytes, 0)
        await handle.sync()
      } finally {
        await handle.close()
      }
      await disk.rename(unnamed, path)
    } catch (error) {
      await disk.unlink(unnamed).catch(() => {})
      throw error
    }
    try {
      await syncFolder(disk, dirname(path))
    } catch (error) {
      shut(`${notKept(error).words} ${untilRestart}`)
      await disk.unlink(path).catch(() => {})
      throw error
    }
  }

  function shut(words: string) {
    chart.shut = words
    report({ file: path, words })
  }

  function damage(line: number, why: string) {
    chart.damaged = damagedWords(chart.subject, line, why)
    report({ file: path, words: chart.damaged })
    return new StoreDamaged(chart.damaged)
  }
}

async function exists(disk: Disk, path: string): Promise<boolean> {
  return disk.stat(path).then(
    () => true,
    () => false,
  )
}
