import fs from 'node:fs/promises'
import { join } from 'node:path'
import { StoreDamaged } from '../desk/ports.ts'
import { damagedWords } from './chart-file.ts'
import type { Cover } from './cover.ts'
import { disk, syncFolder } from './disk.ts'
import { takeFolder } from './folder.ts'
import { readIndex } from './index-file.ts'
import { type Kept, type KeptCommit, lineOf, readLines } from './line.ts'
import { lowdbStore } from './lowdb.ts'
import { linesOf, noticesOf } from './moved-lines.ts'
import type { Side } from './moving.ts'
import { pathOf, subjectsIn } from './opening.ts'

/** A data folder as one side of a move. */
export async function lowdbSide(folder: string, cover: Cover): Promise<Side> {
  // A start and a stop leave it tidy: half lines are cut off, and tries that nobody reported are written down.
  await (await lowdbStore(folder, { cover, onDamage: 'refuse' })).close()
  const unlock = takeFolder(folder)
  const charts = join(folder, 'charts')
  const index = await readIndex(join(folder, 'index.json'), disk, cover)
  const dueAt = new Map((index?.charts ?? []).map((row) => [row[0], row[7] === 0 ? undefined : row[7]]))

  return {
    subjects: async () => subjectsIn(charts).toSorted(),

    async chart(subject) {
      const reading = readLines<Kept>(await fs.readFile(pathOf(charts, subject)), subject, cover)
      if (reading.end.is === 'damaged')
        throw new StoreDamaged(damagedWords(subject, reading.end.line, reading.end.why))
      const commits = reading.kept.filter((kept) => 'entries' in kept)
      const last = commits.at(-1) as KeptCommit
      return {
        subject,
        open: last.open,
        dueAt: dueAt.has(subject) ? dueAt.get(subject) : last.dueAt,
        entries: commits.flatMap(({ entries }) => entries),
        notices: noticesOf(subject, reading.kept),
      }
    },

    async put(chart) {
      const path = pathOf(charts, chart.subject)
      let before = chart.subject
      const texts = linesOf(chart).map((kept) => {
        const { text, hash } = lineOf(kept, before, cover)
        before = hash
        return text
      })
      await fs.writeFile(`${path}.new`, texts.join(''), { mode: 0o600, flush: true })
      await fs.rename(`${path}.new`, path)
      dueAt.set(chart.subject, chart.dueAt)
    },

    async close(done) {
      if (done) {
        await syncFolder(disk, charts)
        // What was moved here is not in the index; the next start makes a new one from the charts.
        if ((index?.charts.length ?? 0) < subjectsIn(charts).length)
          await fs.rm(join(folder, 'index.json'), { force: true })
      }
      unlock()
    },
  }
}
