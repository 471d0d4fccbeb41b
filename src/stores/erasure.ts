import { readFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { Sealed } from '../chart/chain.ts'
import { StoreClosed } from '../desk/ports.ts'
import { type Chart, type Edges, turn } from './chart-file.ts'
import { notKept, syncFolder, writeAll } from './disk.ts'
import { type Kept, type KeptCommit, lineOf, readLines } from './line.ts'
import { linesOf, noticesOf } from './moved-lines.ts'
import { isAbout } from './outbox.ts'

/** A chart's file with the means to write it. */
export type File = { readonly path: string; readonly chart: Chart; readonly edges: Edges }

/** Replaces a chart's file by one that holds this commit alone. */
export function replaceChart(file: File, commit: KeptCommit): Promise<void> {
  return replaceLines(file, [[commit]])
}

/** Replaces the entries of a chart; its notices stay with what became of them, but for those about `naming`. */
export async function replaceEntries(file: File, entries: readonly Sealed[], naming: string): Promise<void> {
  const { path, chart, edges } = file
  const { subject, open, dueAt = null } = chart
  const { kept } = readLines<Kept>(await readFile(path), subject, edges.cover)
  const notices = noticesOf(subject, kept).filter(({ notice }) => !isAbout(notice, naming))
  await replaceLines(file, linesOf({ subject, open, dueAt, entries: [...entries], notices }))
}

/**
 * The new file is whole and synced before it takes the name, so a crash leaves the one or the other. What the disk
 * itself may still hold of the old blocks is beyond us.
 */
async function replaceLines({ path, chart, edges }: File, lines: readonly Kept[][]): Promise<void> {
  const { disk, handles, cover } = edges
  let hash = chart.subject
  const texts = lines.map((kept) => {
    const line = lineOf(kept, hash, cover)
    hash = line.hash
    return line.text
  })
  const bytes = Buffer.from(texts.join(''))
  const unnamed = `${path}.new`
  try {
    const handle = await disk.open(unnamed, 'w', 0o600)
    try {
      await writeAll(handle, bytes, 0)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await handles.forget(path)
    await disk.rename(unnamed, path)
    await syncFolder(disk, dirname(path))
  } catch (error) {
    await disk.unlink(unnamed).catch(() => {})
    chart.shut =
      'An erasure was left half done. This chart stays closed for writing until the bot is started again.'
    throw new StoreClosed(`${notKept(error).words} ${chart.shut}`, error)
  }
  delete chart.entries
  Object.assign(chart, { length: 0, lines: lines.length, size: bytes.length, hash })
  turn(chart, lines.flat())
}
