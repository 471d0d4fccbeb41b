import type { EntryOf } from '../chart/entries.ts'
import { type Column, table } from './csv-table.ts'

type Exercised = {
  readonly entry: EntryOf<'exercise-done' | 'session-done'>
  readonly line: EntryOf<'exercise-done'>['exercises'][number]
}

const day: Column<{ readonly entry: { readonly day: string } }> = {
  name: 'day',
  unit: 'date',
  about: "The athlete's own calendar day.",
  of: (row) => row.entry.day,
}

export const exerciseTable = table<Exercised>(
  'exercises',
  'Exercises that were done, one row an exercise.',
  (chart) =>
    chart.entries.flatMap((entry) =>
      entry.kind === 'exercise-done' || entry.kind === 'session-done'
        ? (entry.exercises ?? []).map((line) => ({ entry, line }))
        : [],
    ),
  (row) => row.entry,
  [
    day,
    { name: 'exercise', unit: '', about: 'Name of the exercise.', of: (row) => row.line.exercise },
    { name: 'where', unit: '', about: 'In the treadmill or off it.', of: (row) => row.line.where },
    { name: 'sets', unit: '', about: 'How many sets.', of: (row) => row.line.sets },
    { name: 'repeats', unit: '', about: 'Repeats in a set.', of: (row) => row.line.repeats },
    { name: 'hold_s', unit: 's', about: 'How long each is held.', of: (row) => row.line.holdSeconds },
    {
      name: 'body_weight_pct',
      unit: '% of body weight carried',
      about: 'As set on the machine.',
      of: (row) => row.line.bodyWeightPct,
    },
    { name: 'pain', unit: '0 to 10', about: 'Pain in the exercise.', of: (row) => row.line.pain },
    { name: 'note', unit: '', about: 'Words of whoever logged it.', of: (row) => row.line.note },
  ],
)

type Signed = {
  readonly entry: EntryOf<'criteria-signed'>
  readonly line: EntryOf<'criteria-signed'>['lines'][number]
}

export const criteriaTable = table<Signed>(
  'criteria',
  'Criteria sets that were signed, one row a criterion, as it stood at the signature.',
  (chart) =>
    chart.entries.flatMap((entry) =>
      entry.kind === 'criteria-signed' ? entry.lines.map((line) => ({ entry, line })) : [],
    ),
  (row) => row.entry,
  [
    { name: 'set', unit: '', about: 'Criteria set and version.', of: (row) => row.entry.set },
    { name: 'criterion', unit: '', about: 'Name of the line.', of: (row) => row.line.line },
    {
      name: 'criterion_status',
      unit: '',
      about: 'met, not met, missing or expired.',
      of: (row) => row.line.status,
    },
    { name: 'value', unit: "the criterion's own", about: 'What was found.', of: (row) => row.line.value },
    { name: 'day', unit: 'date', about: 'When it was found.', of: (row) => row.line.day },
    {
      name: 'against',
      unit: '',
      about: 'yes when it was signed though lines that decide were not met.',
      of: (row) => (row.entry.against ? 'yes' : 'no'),
    },
    { name: 'words', unit: '', about: 'Words of whoever signed.', of: (row) => row.entry.words },
  ],
)
