import writeFileAtomic from 'write-file-atomic'
import type { IndexRow } from '../desk/ports.ts'
import { blankChart, type Chart } from './chart-file.ts'
import type { Cover } from './cover.ts'
import type { Disk } from './disk.ts'
import { lineOf, readLines } from './line.ts'
import type { Posted, Waiting } from './outbox.ts'

/**
 * What a start would else have to find out by reading every chart. It can be made again from the charts at
 * any time; what was kept after it was written is read from the ends of the files.
 */
export type Index = {
  readonly version: 1
  readonly order: number
  readonly charts: readonly Row[]
  readonly waiting: readonly Waiting[]
  readonly settled: readonly string[]
  readonly posted: readonly (readonly [string, Posted])[]
}
export type Row = readonly [
  subject: string,
  length: number,
  last: string,
  lines: number,
  size: number,
  hash: string,
  open: 0 | 1,
  dueAt: string | null | 0,
]

/** Undefined when there is none or it cannot be trusted. */
export async function readIndex(path: string, disk: Disk, cover: Cover): Promise<Index | undefined> {
  const bytes = await disk.readFile(path).catch((error) => {
    if (error.code === 'ENOENT') return undefined
    throw error
  })
  if (!bytes) return undefined
  const { kept, end } = readLines<Index>(bytes, 'index', cover)
  return end.is === 'whole' && kept[0]?.version === 1 ? kept[0] : undefined
}

export async function writeIndex(path: string, index: Index, cover: Cover) {
  await writeFileAtomic(path, lineOf([index], 'index', cover).text, { mode: 0o600 })
}

export function rowOf({ subject, length, last, lines, size, hash, open, dueAt }: Chart): Row {
  return [subject, length, last, lines, size, hash, open ? 1 : 0, dueAt === undefined ? 0 : dueAt]
}

/** What a round or a list needs to know of a chart. */
export function indexRow({ subject, length, last, open, dueAt }: Chart): IndexRow {
  return { subject, length, last, open, dueAt }
}

export function chartOf([subject, length, last, lines, size, hash, open, dueAt]: Row): Chart {
  const known = { length, last, lines, size, hash, open: open === 1 }
  return Object.assign(blankChart(subject), known, { dueAt: dueAt === 0 ? undefined : dueAt })
}
