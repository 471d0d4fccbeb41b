import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import { unloggedDays } from '../rules/unlogged.ts'
import { type Modal, modal, section, textInput } from './blocks.ts'
import { dayPicker } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

/** A prescribed run that was not run, as the athlete told it. */
export function skippedModal(chart: Chart, today: Day): Modal {
  const open = unloggedDays(chart, today)
  const about = { athlete: chart.athlete }
  const waits =
    open.length > 0
      ? `Prescribed and not logged: ${open.slice(0, 10).join(', ')}.`
      : 'No prescribed run waits.'
  return modal({ door: 'run-skipped', title: 'A run skipped', submit: 'Save', about }, [
    section(`${waits} A run that is neither logged nor skipped counts as possibly run.`),
    dayPicker({ name: 'day', label: 'Not run on' }, open[0] ?? today),
    textInput({ name: 'words', label: 'Why', optional: true, most: 1000 }),
  ])
}

export const skippedRead = reads(OfAthlete, async (_, form, { athlete }) => {
  const words = form.text('words')
  return { hands: [{ kind: 'run-skipped', athlete, day: form.day('day'), ...(words ? { words } : {}) }] }
})
