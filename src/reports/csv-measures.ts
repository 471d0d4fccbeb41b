import type { EntryOf } from '../chart/entries.ts'
import { table } from './csv-table.ts'

export const measureTable = table<EntryOf<'measure'>>(
  'measures',
  'Strength, hops, balance, questionnaires and the like, as staff entered them.',
  (chart) => chart.entries.filter((e): e is EntryOf<'measure'> => e.kind === 'measure'),
  (row) => row,
  [
    { name: 'measure', unit: '', about: 'Name of the measure.', of: (row) => row.measure },
    { name: 'day', unit: 'date', about: 'Day of the measurement.', of: (row) => row.day },
    {
      name: 'value',
      unit: "the measure's own",
      about: 'The value, or the injured side where both sides are measured.',
      of: (row) => row.value,
    },
    { name: 'other_side', unit: "the measure's own", about: 'The other side.', of: (row) => row.otherSide },
    {
      name: 'protocol',
      unit: '',
      about: 'How it was measured, where norms differ by it.',
      of: (row) => row.protocol,
    },
    { name: 'note', unit: '', about: 'Words of whoever measured.', of: (row) => row.note },
  ],
)
