import fs from 'node:fs'
import { join } from 'node:path'
import { blankChart, type Chart, damagedWords, type Edges, turn } from './chart-file.ts'
import { writeAll } from './disk.ts'
import { chartOf, type Index } from './index-file.ts'
import { type Kept, readLines } from './line.ts'
import { checkedSubject } from './subject.ts'

const ending = '.jsonl'

export function pathOf(folder: string, subject: string): string {
  return join(folder, `${checkedSubject(subject)}${ending}`)
}

/** Finds every chart of a folder: from the index what it knows, from the files what was written since. */
export async function findCharts(folder: string, index: Index | undefined, edges: Edges): Promise<Chart[]> {
  const charts = new Map((index?.charts ?? []).map((row) => [row[0], chartOf(row)]))
  const files = new Set(subjectsIn(folder))
  for (const subject of files) {
    const chart = charts.get(subject) ?? blankChart(subject)
    charts.set(subject, chart)
    const size = fs.statSync(pathOf(folder, subject)).size
    if (size !== chart.size || size === 0) await readRest(pathOf(folder, subject), chart, size, edges)
    // What was noted by `schedule` is lost with the index: look at once rather than late.
    if (!index && chart.open) chart.dueAt = undefined
  }
  for (const chart of charts.values())
    if (!files.has(chart.subject))
      markDamaged(pathOf(folder, chart.subject), chart, 1, 'the file is gone', edges)
  return [...charts.values()]
}

/** Removes what a write left behind that never got its name. */
export function sweep(folder: string) {
  for (const name of fs.readdirSync(folder))
    if (name.endsWith(`${ending}.new`) || /^index\.json\.\d+$/.test(name)) fs.rmSync(join(folder, name))
}

/** The subjects whose charts lie in a folder. */
export function subjectsIn(folder: string): string[] {
  const names = fs.readdirSync(folder).filter((name) => name.endsWith(ending))
  return names.map((name) => checkedSubject(name.slice(0, -ending.length)))
}

async function readRest(path: string, chart: Chart, size: number, edges: Edges) {
  if (size === 0) return markDamaged(path, chart, 1, 'the file is empty', edges)
  if (size < chart.size)
    return markDamaged(path, chart, chart.lines, 'lines that were kept are missing', edges)
  const handle = await edges.disk.open(path, 'r+')
  try {
    const bytes = Buffer.alloc(size - chart.size)
    await handle.read(bytes, 0, bytes.length, chart.size)
    const { kept, lines, hash, size: good, end } = readLines<Kept>(bytes, chart.hash, edges.cover)
    if (end.is === 'damaged') return markDamaged(path, chart, chart.lines + end.line, end.why, edges)
    if (chart.lines + lines === 0) return markDamaged(path, chart, 1, 'it cannot be read', edges)
    Object.assign(chart, { lines: chart.lines + lines, size: chart.size + good, hash })
    turn(chart, kept)
    edges.onKept(chart.subject, kept)
    if (end.is === 'torn') {
      await handle.truncate(chart.size)
      const words = `Cut off an unfinished last line (${end.bytes} bytes): a write that was never acknowledged.`
      edges.report({ file: path, words })
    }
    if (end.is === 'unended') {
      await writeAll(handle, Buffer.from('\n'), chart.size)
      chart.size += 1
    }
    if (end.is !== 'whole') await handle.datasync()
  } finally {
    await handle.close()
  }
}

function markDamaged(path: string, chart: Chart, line: number, why: string, { report }: Edges) {
  chart.damaged = damagedWords(chart.subject, line, why)
  report({ file: path, words: chart.damaged })
}
