import type { Chart } from '../chart/chart.ts'
import type { Team } from '../chart/roster.ts'
import { amendmentTable, escalationTable } from './csv-care.ts'
import { checkInTable } from './csv-check-ins.ts'
import { measureTable } from './csv-measures.ts'
import { criteriaTable, exerciseTable } from './csv-reviews.ts'
import { boutTable, prescriptionTable, sessionTable } from './csv-running.ts'
import { csvHead, csvText, type Table } from './csv-table.ts'

export const tables: readonly Table[] = [
  checkInTable,
  prescriptionTable,
  sessionTable,
  boutTable,
  exerciseTable,
  measureTable,
  criteriaTable,
  escalationTable,
  amendmentTable,
]

export type NamedText = { readonly name: string; readonly text: string }

/** Every table of one chart, and the dictionary of their columns, as files. */
export function csvTables(chart: Chart, team: Team): readonly NamedText[] {
  const files = tables.map((one) => ({
    name: `${one.name}.csv`,
    text: csvHead(one) + csvText(one.records(chart, team)),
  }))
  return [...files, { name: 'dictionary.csv', text: dictionary() }]
}

/** What each column of each table means, and its unit. */
export function dictionary(): string {
  const columns = ['table', 'table_about', 'column', 'unit', 'about'].map((name) => ({
    name,
    unit: '',
    about: '',
  }))
  const rows = tables.flatMap((one) => one.columns.map((c) => [one.name, one.about, c.name, c.unit, c.about]))
  return csvHead({ columns }) + csvText(rows)
}
