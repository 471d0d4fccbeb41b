import { stringify } from 'csv-stringify/sync'
import type { Chart } from '../chart/chart.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { amendmentsOf } from '../chart/struck.ts'

export type Cell = string | number | undefined

export type Column<Row> = {
  readonly name: string
  /** As people read it; empty for words and codes. */
  readonly unit: string
  readonly about: string
  readonly of: (row: Row) => Cell
}

/** A table of the record: one file, one row for each thing, with a line in the dictionary for each column. */
export type Table = {
  readonly name: string
  readonly about: string
  readonly columns: readonly Omit<Column<never>, 'of'>[]
  records(chart: Chart, team: Team): readonly (readonly Cell[])[]
}

type Signed = {
  readonly id: string
  readonly athlete: string
  readonly author: string
  readonly recordedAt: string
}

/** A table whose rows each rest on one entry; `entryOf` names it. Every row says who signed it and whether it was struck. */
export function table<Row>(
  name: string,
  about: string,
  rows: (chart: Chart, team: Team) => readonly Row[],
  entryOf: (row: Row) => Signed,
  own: readonly Column<Row>[],
): Table {
  type Struck = ReadonlyMap<string, EntryOf<'amendment'>>
  const signing: readonly Column<{ entry: Signed; struck: Struck }>[] = [
    { name: 'entry', unit: '', about: 'Id of the entry in the chart.', of: (r) => r.entry.id },
    { name: 'athlete', unit: '', about: 'Id of the athlete.', of: (r) => r.entry.athlete },
    {
      name: 'author',
      unit: '',
      about: 'Id of who signed; sanderling when a rule did.',
      of: (r) => r.entry.author,
    },
    { name: 'recorded_at', unit: 'UTC', about: 'When it was written down.', of: (r) => r.entry.recordedAt },
    {
      name: 'status',
      unit: '',
      about: 'final, or "entered in error" when an amendment struck it.',
      of: (r) => (r.struck.has(r.entry.id) ? 'entered in error' : 'final'),
    },
    {
      name: 'struck_because',
      unit: '',
      about: 'The reason of the amendment that struck it.',
      of: (r) => r.struck.get(r.entry.id)?.words,
    },
  ]
  return {
    name,
    about,
    columns: [...signing, ...own].map((column) => ({
      name: column.name,
      unit: column.unit,
      about: column.about,
    })),
    records(chart, team) {
      const struck = amendmentsOf(chart)
      return rows(chart, team).map((row) => [
        ...signing.map((column) => column.of({ entry: entryOf(row), struck })),
        ...own.map((column) => column.of(row)),
      ])
    },
  }
}

/**
 * RFC 4180: CRLF, quotes where needed. A cell that a spreadsheet would run as a formula begins with an apostrophe;
 * numbers stay numbers, the negative ones too.
 */
export function csvText(records: readonly (readonly Cell[])[]): string {
  return stringify(
    records.map((cells) => [...cells]),
    { record_delimiter: '\r\n', escape_formulas: true },
  )
}

/** The first line of a table's file. The mark before it tells a spreadsheet that the text is UTF-8. */
export function csvHead({ columns }: Pick<Table, 'columns'>): string {
  return `\uFEFF${csvText([columns.map((column) => column.name)])}`
}
