import type { Chart } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import { dayAt } from '../chart/day.ts'
import { raises } from '../rules/raises.ts'
import { Submission } from '../rules/submissions.ts'
import { type Modal, modal, numberInput, section, textInput } from './blocks.ts'
import { ceilingFrom } from './ceiling.ts'
import { dayPicker, lineInput, optionsOf, selectFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

/** Set a clearance, or withdraw it: "no running" is a clearance too, and lasts until somebody writes another. */
export function clearanceModal(chart: Chart): Modal {
  const before = chart.clearance
  const ceiling = before?.ceiling ?? chart.plan?.ceiling
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  return modal({ door: 'clearance', title: 'Clearance', submit: 'Sign', about: { athlete: chart.athlete } }, [
    section('To withdraw a clearance choose "no running". Athlete and coaches hear of it at once.'),
    selectFrom({ name: 'state', label: 'Cleared for' }, optionsOf(State.options), before?.state),
    dayPicker({ name: 'until', label: 'Lapses after' }, before?.until),
    numberInput({
      name: 'bodyWeightPct',
      label: 'At most: body weight carried, in %',
      low: 1,
      high: 100,
      optional: true,
      ...initial(ceiling?.bodyWeightPct),
    }),
    numberInput({
      name: 'speedKmh',
      label: 'At most: speed, in km/h',
      low: 1,
      high: 36,
      decimal: true,
      optional: true,
      ...initial(ceiling && Number((ceiling.speedMps * 3.6).toFixed(1))),
    }),
    numberInput({
      name: 'runMinutes',
      label: 'At most: minutes of running in a session',
      low: 1,
      high: 240,
      optional: true,
      ...initial(ceiling?.runMinutes),
    }),
    lineInput({
      name: 'restrictions',
      label: 'Not allowed beside this (for the chart)',
      optional: true,
      most: 200,
      initial: before?.restrictions?.join('; '),
    }),
    textInput({ name: 'words', label: 'Why (for the chart only)', optional: true, most: 1000 }),
  ])
}

export const clearanceRead = reads(OfAthlete, async ({ doorway }, form, { athlete }) => {
  const { desk } = doorway
  const chart = await desk.charts.read(athlete)
  const state = form.choice('state')
  const given = ['bodyWeightPct', 'speedKmh', 'runMinutes'].filter((name) => form.number(name) !== undefined)
  if (given.length > 0 && given.length < 3)
    return { refused: 'half', words: 'Give all three limits, or none.', field: given[0] ?? 'bodyWeightPct' }
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? desk.clinic.timeZone)
  const until = form.day('until')
  if (until && until < today) return { refused: 'past', words: 'This day is over already.', field: 'until' }
  const restrictions = form.text('restrictions')?.trim()
  const clearance = {
    kind: 'clearance',
    athlete,
    state,
    until,
    ...(given.length === 3 && state !== 'no running' ? { ceiling: ceilingFrom(form) } : {}),
    ...(restrictions ? { restrictions: [restrictions] } : {}),
    words: form.text('words'),
  }
  const parsed = Submission.safeParse(clearance)
  return {
    hands: [clearance],
    raises: parsed.success ? raises(chart, parsed.data, desk.library, today) : [],
  }
})
