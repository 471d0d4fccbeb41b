import Papa from 'papaparse'
import { beforeAll, describe, expect, test } from 'vitest'
import { csvText } from '../../src/reports/csv-table.ts'
import { csvTables } from '../../src/reports/csv-tables.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
let files: ReadonlyMap<string, string>
beforeAll(async () => {
  record = await twoWeeks()
  files = new Map(csvTables(record.chart, record.team).map(({ name, text }) => [name, text]))
})

type Row = { [column: string]: string }

/** Read back by another hand than the one that wrote it. */
function read(name: string): readonly Row[] {
  const { data, errors } = Papa.parse<Row>(files.get(name) ?? '', { header: true, skipEmptyLines: true })
  expect(errors).toEqual([])
  return data
}

describe('the tables of a record', () => {
  test('read back whole by a second parser, every row with every column', () => {
    expect([...files.keys()]).toEqual([
      'check-ins.csv',
      'prescriptions.csv',
      'sessions.csv',
      'bouts.csv',
      'exercises.csv',
      'measures.csv',
      'criteria.csv',
      'escalations.csv',
      'corrections.csv',
      'dictionary.csv',
    ])
    expect(read('check-ins.csv')).toHaveLength(15)
    expect(read('sessions.csv')).toHaveLength(4)
    expect(read('bouts.csv')).toHaveLength(8)
  })

  test('lines end in CR LF, and the text says that it is UTF-8', () => {
    for (const text of files.values()) {
      expect(text.startsWith('\uFEFF')).toBe(true)
      const outsideQuotes = text.replaceAll(/"(?:[^"]|"")*"/g, '')
      expect(outsideQuotes.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    }
  })

  test("an athlete's words that would run as a formula come out as words, commas, quotes, line ends and all", () => {
    const row = read('check-ins.csv').find((one) => one.day === '2026-03-24')
    expect(row?.note).toBe('\'=HYPERLINK("http://evil","it woke me"), twice\nand then not')
    expect(read('measures.csv').find((one) => one.measure === 'acl-rsi')?.note).toBe("'-1 question left out")
  })

  for (const start of ['=', '+', '-', '@', '\t', '\r'])
    test(`a cell that begins with ${JSON.stringify(start)} is no formula`, () => {
      const [[cell]] = Papa.parse<string[]>(csvText([[`${start}1+1`]])).data as [[string]]
      expect(cell.startsWith("'")).toBe(true)
    })

  test('a negative number stays a number', () => expect(csvText([[-1.5]])).toBe('-1.5\r\n'))

  test('a silent morning has a row with a reason and without zeros', () => {
    const row = read('check-ins.csv').find((one) => one.day === '2026-03-19')
    expect(row).toMatchObject({ missing: 'asked, no answer', worst_pain: '', morning_pain: '', signs: '' })
  })

  test('a scale that was left blank is an empty cell, and the dictionary says so', () => {
    const [answered, blank] = ['2026-03-16', '2026-03-24'].map((day) =>
      read('check-ins.csv').find((one) => one.day === day),
    )
    expect(answered).toMatchObject({ sleep: '2', fatigue: '3', stress: '2', soreness: '1' })
    expect(blank).toMatchObject({ missing: '', sleep: '', fatigue: '', stress: '', soreness: '' })
    for (const name of ['sleep', 'fatigue', 'stress', 'soreness'])
      expect(read('dictionary.csv').find(({ column }) => column === name)?.about).toContain('left blank')
  })

  test('an explicit "none of these" is not an empty cell', () =>
    expect(read('check-ins.csv')[0]).toMatchObject({ missing: '', worst_pain: '0', signs: 'none' }))

  test('what was struck is there, marked, with the reason', () => {
    const struck = read('check-ins.csv').filter((one) => one.status !== 'final')
    expect(struck).toHaveLength(1)
    expect(struck[0]).toMatchObject({
      status: 'entered in error',
      struck_because: 'Mika typed the day before.',
    })
    expect(read('measures.csv').map((one) => one.status)).toEqual(['entered in error', 'final', 'final'])
  })

  test('a call is there from its opening to its closing', () =>
    expect(read('escalations.csv')).toMatchObject([
      { tier: 'urgent', acknowledged_by: 'iben', disposition: 'seen in person', closed_by: 'iben' },
    ]))

  test('the dictionary explains every column of every table, and no other', () => {
    const explained = read('dictionary.csv').map((one) => `${one.table}.${one.column}`)
    const there = [...files.keys()]
      .filter((name) => name !== 'dictionary.csv')
      .flatMap((name) =>
        Object.keys(read(name)[0] ?? {}).map((column) => `${name.replace('.csv', '')}.${column}`),
      )
    expect(explained).toEqual(there)
    for (const one of read('dictionary.csv')) expect(one.about, one.column).not.toBe('')
  })
})
