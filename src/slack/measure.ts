import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { MeasureKind } from '../chart/measure-kind.ts'
import { type Modal, modal, numberInput, option, textInput } from './blocks.ts'
import { dayPicker, selectFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

/** A measured value; what fits is checked against the measure itself, at its field. */
export function measureModal(chart: Chart, kinds: readonly MeasureKind[], today: Day): Modal {
  const options = kinds
    .toSorted((a, b) => a.title.localeCompare(b.title))
    .map((kind) => option(kind.measure, kind.unit ? `${kind.title} (${kind.unit})` : kind.title))
  const wide = { low: -1000, high: 10_000, decimal: true }
  return modal(
    { door: 'measure', title: 'Record a measure', submit: 'Save', about: { athlete: chart.athlete } },
    [
      selectFrom({ name: 'measure', label: 'Measure' }, options),
      dayPicker({ name: 'day', label: 'Measured on' }, today),
      numberInput({ name: 'value', label: 'Value; of two sides the injured one', ...wide }),
      numberInput({ name: 'otherSide', label: 'The other side', optional: true, ...wide }),
      textInput({ name: 'note', label: 'Note', optional: true }),
    ],
  )
}

export const measureRead = reads(OfAthlete, async (_, form, { athlete }) => ({
  hands: [
    {
      kind: 'measure',
      athlete,
      measure: form.choice('measure'),
      day: form.day('day'),
      value: form.number('value'),
      otherSide: form.number('otherSide'),
      note: form.text('note'),
    },
  ],
}))
