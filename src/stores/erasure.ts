import { dirname } from 'node:path'
import { StoreClosed } from '../desk/ports.ts'
import { type Chart, type Edges, turn } from './chart-file.ts'
import { notKept, syncFolder, writeAll } from './disk.ts'
import { type KeptCommit, lineOf } from './line.ts'

/**
 * Replaces a chart's file by one that holds this commit alone. The new file is whole and synced before it takes the
 * name, so a crash leaves the one or the other. What the disk itself may still hold of the old blocks is beyond us.
 */
export async function replaceChart(
  path: string,
  chart: Chart,
  edges: Edges,
  commit: KeptCommit,
): Promise<void> {
  const { disk, handles, cover } = edges
  const { text, hash } = lineOf([commit], chart.subject, cover)
  const bytes = Buffer.from(text)
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
  Object.assign(chart, { length: 0, lines: 1, size: bytes.length, hash })
  turn(chart, [commit])
}
