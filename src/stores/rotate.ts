import fs from 'node:fs/promises'
import { join } from 'node:path'
import { StoreDamaged } from '../desk/ports.ts'
import { damagedWords } from './chart-file.ts'
import type { Cover } from './cover.ts'
import { disk, syncFolder } from './disk.ts'
import { takeFolder } from './folder.ts'
import { type Kept, lineOf, readLines } from './line.ts'
import { pathOf, subjectsIn } from './opening.ts'

/**
 * Writes every chart anew under the first key of `cover`.
 * Each file is replaced whole, and only when the new one reads the same; an interrupted rotation is repeated.
 * Throws `StoreClosed` while the bot runs, `StoreDamaged` on the first chart that cannot be trusted.
 */
export async function rotateKeys(folder: string, cover: Cover): Promise<number> {
  const unlock = takeFolder(folder)
  try {
    const charts = join(folder, 'charts')
    // It tells hashes that change now, and it is under the old key itself.
    await fs.rm(join(folder, 'index.json'), { force: true })
    const subjects = subjectsIn(charts)
    for (const subject of subjects) await rotateChart(pathOf(charts, subject), subject, cover)
    await syncFolder(disk, charts)
    return subjects.length
  } finally {
    unlock()
  }
}

async function rotateChart(path: string, subject: string, cover: Cover) {
  const bytes = await fs.readFile(path)
  const { kept, end } = readLines<Kept>(bytes, subject, cover)
  if (end.is === 'damaged') throw new StoreDamaged(damagedWords(subject, end.line, end.why))
  let before = subject
  const texts = inLines(kept).map((line) => {
    const { text, hash } = lineOf(line, before, cover)
    before = hash
    return text
  })
  const renewed = Buffer.from(texts.join(''))
  const again = readLines<Kept>(renewed, subject, cover)
  if (again.end.is !== 'whole' || JSON.stringify(again.kept) !== JSON.stringify(kept))
    throw new Error(`chart ${subject} did not survive its new key`)
  await fs.writeFile(`${path}.new`, renewed, { mode: 0o600, flush: true })
  await fs.rename(`${path}.new`, path)
}

const keptPerLine = 100

function inLines(kept: readonly Kept[]): Kept[][] {
  const lines: Kept[][] = []
  for (let from = 0; from < kept.length; from += keptPerLine) lines.push(kept.slice(from, from + keptPerLine))
  return lines
}
