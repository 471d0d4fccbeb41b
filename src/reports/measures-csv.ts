import { CsvError, parse } from 'csv-parse/sync'

/** One line of a file of measures: what it says, not yet judged; or why it cannot be read. */
export type MeasureLine = {
  /** As a text editor counts; the first of them when words hold line ends. */
  readonly line: number
  readonly submission?: Readonly<Record<string, unknown>>
  readonly fault?: string
}

const needed = ['athlete', 'measure', 'day', 'value'] as const
const known: ReadonlySet<string> = new Set([...needed, 'other_side', 'note'])

/**
 * Reads a CSV of measures: a head with athlete, measure, day, value and, if there are any, other_side and note; then a
 * line a measure. Commas or semicolons between. A file that is not such a table is one fault at its line.
 */
export function readMeasures(text: string): readonly MeasureLine[] {
  try {
    const rows = rowsOf(text)
    const head = rows[0]?.record.map((name) => name.trim().toLowerCase()) ?? []
    const fault = headFault(head)
    if (fault) return [{ line: 1, fault }]
    return rows.slice(1).map(({ record, info }) => lineOf(head, record, firstLine(record, info.lines)))
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return [{ line: Number(error.lines ?? 1), fault: `Not a table: ${error.message}.` }]
  }
}

type Row = { readonly record: readonly string[]; readonly info: { readonly lines: number } }

function rowsOf(text: string): readonly Row[] {
  const [first = ''] = text.split('\n', 1)
  const delimiter = first.includes(';') && !first.includes(',') ? ';' : ','
  const options = { bom: true, skip_empty_lines: true, relax_column_count: true, info: true, delimiter }
  // A line end of two letters between quotes would be counted twice.
  return parse(text.replaceAll('\r\n', '\n'), options) as unknown as Row[]
}

function headFault(head: readonly string[]): string | undefined {
  const missing = needed.filter((name) => !head.includes(name))
  if (missing.length > 0) return `The first line must name the columns; ${missing.join(', ')} missing.`
  const strange = head.filter((name, i) => !known.has(name) || head.indexOf(name) !== i)
  return strange.length > 0
    ? `Not known, or named twice: ${strange.join(', ')}. There is ${[...known].join(', ')}.`
    : undefined
}

function firstLine(record: readonly string[], last: number): number {
  return last - record.join('').split('\n').length + 1
}

function lineOf(head: readonly string[], record: readonly string[], line: number): MeasureLine {
  if (record.length !== head.length)
    return { line, fault: `${record.length} cells where the head has ${head.length}.` }
  const cell = (name: string) => record[head.indexOf(name)]?.trim() ?? ''
  const [value, otherSide] = [numberIn(cell('value')), numberIn(cell('other_side'))]
  if (value === undefined || Number.isNaN(value))
    return { line, fault: `value: "${cell('value')}" is no number such as 12.5.` }
  if (Number.isNaN(otherSide))
    return { line, fault: `other_side: "${cell('other_side')}" is no number such as 12.5.` }
  const submission = {
    kind: 'measure',
    athlete: cell('athlete'),
    measure: cell('measure'),
    day: cell('day'),
    value,
    ...(otherSide === undefined ? {} : { otherSide }),
    ...(cell('note') === '' ? {} : { note: cell('note') }),
  }
  return { line, submission }
}

/** Undefined when the cell is empty, not a number when it holds anything but one with a point. */
function numberIn(cell: string): number | undefined {
  if (cell === '') return undefined
  return /^-?\d+(\.\d+)?$/.test(cell) ? Number(cell) : Number.NaN
}
