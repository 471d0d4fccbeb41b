import fs from 'node:fs/promises'
import { join } from 'node:path'
import { firstBreak } from '../chart/chain.ts'
import type { Cover } from './cover.ts'
import { disk, syncFolder } from './disk.ts'
import { takeFolder } from './folder.ts'
import { readIndex } from './index-file.ts'
import { type Kept, type Reading, readLines } from './line.ts'
import { pathOf, subjectsIn } from './opening.ts'

/** How one chart file stands. `wrong` is absent when all of it can be trusted. */
export type Verified = {
  readonly subject: string
  readonly entries: number
  readonly lines: number
  readonly wrong?: { readonly line: number; readonly why: string }
  /** Bytes of a write that was never acknowledged; the next start cuts them off. */
  readonly torn?: number
}

/** Reads every chart of a data folder, changes nothing, and needs no lock. */
export async function verifyFolder(folder: string, cover: Cover): Promise<Verified[]> {
  const charts = join(folder, 'charts')
  const index = await readIndex(join(folder, 'index.json'), disk, cover)
  const known = new Map((index?.charts ?? []).map((row) => [row[0], row]))
  const there = subjectsIn(charts)
  const verified: Verified[] = []
  for (const subject of [...new Set([...there, ...known.keys()])].toSorted()) {
    const least = known.get(subject)?.[4] ?? 1
    verified.push(await verifyChart(charts, subject, least, cover))
  }
  return verified
}

export type Restored = {
  readonly entries: number
  readonly lastId: string | undefined
  readonly lostBytes: number
  /** Ids that can still be read in what was lost. Nobody vouches for them. */
  readonly legible: readonly string[]
  readonly keptAside: string
}

/**
 * Cuts a chart back to the lines that can be trusted; the file as it was stays beside it. Undefined when there
 * is nothing to mend. Throws `StoreClosed` while the bot runs.
 */
export async function restoreChart(
  folder: string,
  subject: string,
  cover: Cover,
): Promise<Restored | undefined> {
  const unlock = takeFolder(folder)
  try {
    const charts = join(folder, 'charts')
    const path = pathOf(charts, subject)
    const index = await readIndex(join(folder, 'index.json'), disk, cover)
    const least = index?.charts.find((row) => row[0] === subject)?.[4] ?? 1
    const bytes = await fs.readFile(path).catch(() => Buffer.alloc(0))
    const reading = readLines<Kept>(bytes, subject, cover)
    if (reading.end.is !== 'damaged' && reading.size >= least) return undefined
    const keptAside = await keepAside(path, bytes)
    await replace(path, bytes.subarray(0, reading.size), reading)
    await syncFolder(disk, charts)
    // The index still knows what was lost; the next start makes a new one from the charts.
    await fs.rm(join(folder, 'index.json'), { force: true })
    const entries = entriesOf(reading)
    const rest = bytes.subarray(reading.size)
    return {
      entries: entries.length,
      lastId: entries.at(-1)?.id as string | undefined,
      lostBytes: rest.length,
      legible: legibleIds(rest.toString('utf8'), cover),
      keptAside,
    }
  } finally {
    unlock()
  }
}

async function verifyChart(charts: string, subject: string, least: number, cover: Cover): Promise<Verified> {
  const bytes = await fs.readFile(pathOf(charts, subject)).catch(() => undefined)
  if (!bytes) return { subject, entries: 0, lines: 0, wrong: { line: 1, why: 'the file is gone' } }
  const reading = readLines<Kept>(bytes, subject, cover)
  const entries = entriesOf(reading)
  const found = { subject, entries: entries.length, lines: reading.lines }
  if (reading.end.is === 'damaged') return { ...found, wrong: reading.end }
  if (bytes.length < least)
    return { ...found, wrong: { line: reading.lines + 1, why: 'lines that were kept are missing' } }
  if (reading.lines === 0) return { ...found, wrong: { line: 1, why: 'it cannot be read' } }
  const broken = firstBreak(entries)
  if (broken !== undefined)
    return { ...found, wrong: { line: 1, why: `entry ${broken + 1} does not follow the one before it` } }
  return reading.end.is === 'torn' ? { ...found, torn: reading.end.bytes } : found
}

const entriesOf = ({ kept }: Reading<Kept>) => kept.flatMap((each) => ('entries' in each ? each.entries : []))

/** The first free name beside the file; never overwrites what an earlier restore kept. */
async function keepAside(path: string, bytes: Buffer): Promise<string> {
  for (let number = 1; ; number++) {
    const aside = `${path}.damaged-${number}`
    try {
      await fs.writeFile(aside, bytes, { flag: 'wx', mode: 0o600, flush: true })
      return aside
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
    }
  }
}

async function replace(path: string, good: Buffer, { end }: Reading<Kept>) {
  if (good.length === 0) return fs.rm(path, { force: true })
  const whole = end.is === 'unended' ? Buffer.concat([good, Buffer.from('\n')]) : good
  await fs.writeFile(`${path}.new`, whole, { mode: 0o600, flush: true })
  await fs.rename(`${path}.new`, path)
}

function legibleIds(text: string, cover: Cover): string[] {
  return text.split('\n').flatMap((line) => {
    try {
      const [, body] = JSON.parse(line) as [string, unknown]
      const kept = JSON.parse(cover.open(JSON.stringify(body))) as { entries?: { id: string }[] }[]
      return kept.flatMap(({ entries = [] }) => entries.map(({ id }) => id))
    } catch {
      return []
    }
  })
}
