import { type FileHandle, open, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { ExportForm } from '../chart/exported.ts'
import type { Team } from '../chart/roster.ts'
import { csvHead, csvText } from '../reports/csv-table.ts'
import { dictionary, tables } from '../reports/csv-tables.ts'
import { exportFile } from '../reports/export-file.ts'
import type { ReportOptions } from '../reports/progress-report.ts'

/** Where exported charts go, one after the other: nothing of a chart is kept in memory after it was put. */
export type Tray = {
  readonly form: ExportForm
  readonly whom: string
  put(chart: Chart, team: Team, now: Instant): Promise<void>
  /** Ends what was begun, and says what there is. */
  close(): Promise<string>
}

/** Only this user may read what is written. */
const mode = 0o600

/** Tables take every chart, row after row; every other form is one file an athlete. */
export async function openTray(
  folder: string,
  form: ExportForm,
  options: Required<ReportOptions>,
): Promise<Tray> {
  const whom = options.for
  if (form === 'csv') return openTables(folder, whom)
  let files = 0
  return {
    form,
    whom,
    async put(chart, team, now) {
      const { ending, content } = await exportFile(form, chart, team, { ...options, now })
      await writeFile(join(folder, `${chart.athlete}.${ending}`), content, { mode })
      files += 1
    },
    close: async () => `${files} ${files === 1 ? 'file' : 'files'}`,
  }
}

/** A file has its name only when it is whole: until then it ends in .part. */
async function openTables(folder: string, whom: string): Promise<Tray> {
  const files = new Map<string, FileHandle>()
  for (const table of tables) {
    const file = await open(join(folder, `${table.name}.csv.part`), 'w', mode)
    await file.write(csvHead(table))
    files.set(table.name, file)
  }
  return {
    form: 'csv',
    whom,
    async put(chart, team) {
      for (const table of tables) {
        const records = table.records(chart, team)
        if (records.length > 0) await files.get(table.name)?.write(csvText(records))
      }
    },
    async close() {
      for (const [name, file] of files) {
        await file.close()
        await rename(join(folder, `${name}.csv.part`), join(folder, `${name}.csv`))
      }
      await writeFile(join(folder, 'dictionary.csv'), dictionary(), { mode })
      return `${files.size} tables and their dictionary`
    },
  }
}
