import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { EntryOf } from '../chart/entries.ts'
import { ticked } from '../chart/signs.ts'
import { type Cell, type Column, table } from './csv-table.ts'

type Row = CheckIn | EntryOf<'check-in-missed'>

const answered =
  (of: (checkIn: CheckIn) => Cell) =>
  (row: Row): Cell =>
    row.kind === 'check-in' ? of(row) : undefined

const scale = (name: 'sleep' | 'fatigue' | 'stress' | 'soreness'): Column<Row> => ({
  name,
  unit: '1 to 7',
  about: `${name}, 1 good to 7 bad; compared with the athlete's own past only. Empty when it was left blank: not known, never zero.`,
  of: answered((checkIn) => checkIn[name]),
})

/** One row a morning that was answered or missed. */
export const checkInTable = table<Row>(
  'check-ins',
  'Morning answers; a morning without one has a row too.',
  (chart: Chart) =>
    chart.entries.filter((e): e is Row => e.kind === 'check-in' || e.kind === 'check-in-missed'),
  (row) => row,
  [
    { name: 'day', unit: 'date', about: "The athlete's own calendar day.", of: (row) => row.day },
    {
      name: 'missing',
      unit: '',
      about: 'Empty when answered; else why there is no answer. A missing answer is never zero.',
      of: (row) => (row.kind === 'check-in' ? '' : row.asked ? 'asked, no answer' : 'not asked'),
    },
    {
      name: 'worst_pain',
      unit: '0 to 10',
      about: 'Worst pain at the injured place since the last check-in.',
      of: answered((checkIn) => checkIn.worstPain),
    },
    {
      name: 'morning_pain',
      unit: '0 to 10',
      about: 'Pain at the injured place getting up.',
      of: answered((checkIn) => checkIn.morningPain),
    },
    {
      name: 'swelling',
      unit: '',
      about: 'More swollen than yesterday, as the athlete sees it; not a grade of effusion.',
      of: answered((checkIn) => checkIn.swelling),
    },
    scale('sleep'),
    scale('fatigue'),
    scale('stress'),
    scale('soreness'),
    {
      name: 'temperature_c',
      unit: 'degrees Celsius',
      about: 'Body temperature, or "not taken"; empty when it was not asked.',
      of: answered((checkIn) => checkIn.temperature),
    },
    {
      name: 'signs',
      unit: '',
      about: 'Signs that were ticked, by name, between spaces; "none" is an explicit answer.',
      of: answered((checkIn) => [...ticked(checkIn.signs)].join(' ') || 'none'),
    },
    { name: 'note', unit: '', about: "The athlete's own words.", of: answered((checkIn) => checkIn.note) },
  ],
)
