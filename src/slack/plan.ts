import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import { dayAt, Weekday } from '../chart/day.ts'
import type { Library } from '../desk/library.ts'
import { raises } from '../rules/raises.ts'
import { Submission } from '../rules/submissions.ts'
import { context, escaped, type Modal, modal, numberInput, option, section } from './blocks.ts'
import { ceilingFields, ceilingFrom } from './ceiling.ts'
import type { Form } from './form.ts'
import { boxesFrom, dayPicker, optionsOf, selectFrom } from './pickers.ts'
import { reads } from './reading.ts'

const OfPlan = z.object({ athlete: z.string(), onTheWay: z.boolean() })
const newestOf = (one: { id: string; version: number }) => `${one.id}@${one.version}`

/** Ladder, start, days and ceiling; on the way through an enrolment the first clearance as well. */
export function planModal(
  chart: Chart,
  library: Library,
  where: 'on the way' | 'alone',
  name: string,
): Modal {
  const tissue = chart.episode?.tissue
  const ladders = library.ladders.filter((ladder) => tissue && ladder.tissues.includes(tissue))
  const programmes = library.programmes.filter((one) => tissue && one.tissues.includes(tissue))
  const onTheWay = where === 'on the way'
  const before = chart.plan
  const about = { athlete: chart.athlete, onTheWay }
  if (ladders.length === 0)
    return modal({ door: 'plan', title: 'No ladder', submit: 'Done', about }, [
      section(`There is no ladder for ${tissue ?? 'this episode'} in the shared folder.`),
    ])
  return modal({ door: 'plan', title: onTheWay ? 'Enrol: 3 of 3' : 'Sign a plan', submit: 'Sign', about }, [
    section(`The plan of *${escaped(name)}*.${onTheWay ? ' The first two forms are saved.' : ''}`),
    selectFrom(
      { name: 'ladder', label: 'Ladder' },
      ladders.map((one) => option(newestOf(one), `${one.title} (${one.rungs.length} rungs)`)),
      before && newestOf(before.ladder),
    ),
    numberInput({
      name: 'startRung',
      label: 'Start on rung',
      low: 1,
      high: Math.max(...ladders.map((one) => one.rungs.length)),
      initial: 1,
    }),
    boxesFrom(
      { name: 'days', label: 'Days on which running is possible' },
      weekdays,
      before?.days ?? Weekday.options,
    ),
    ...ceilingFields('Ceiling', before?.ceiling),
    ...(programmes.length > 0
      ? [
          selectFrom(
            { name: 'programme', label: 'Exercises on days without a run', optional: true },
            programmes.map((one) => option(newestOf(one), one.title)),
            before?.programme && newestOf(before.programme),
          ),
        ]
      : []),
    ...(onTheWay
      ? [
          selectFrom({ name: 'state', label: 'Cleared for' }, optionsOf(State.options), 'unloaded running'),
          dayPicker({ name: 'until', label: 'Clearance lapses after' }),
        ]
      : []),
    context('A new plan starts anew on its first rung: runs before it no longer count for steps up.'),
  ])
}

const weekdays = Weekday.options.map((day) =>
  option(
    day,
    {
      mon: 'Monday',
      tue: 'Tuesday',
      wed: 'Wednesday',
      thu: 'Thursday',
      fri: 'Friday',
      sat: 'Saturday',
      sun: 'Sunday',
    }[day],
  ),
)

export const planRead = reads(OfPlan, async ({ doorway }, form, { athlete, onTheWay }) => {
  const { desk } = doorway
  const chart = await desk.charts.read(athlete)
  const plan = planFrom(form, athlete)
  const { clinic } = await desk.team()
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? clinic.timeZone)
  const until = form.day('until')
  if (onTheWay && until && until < today)
    return { refused: 'past', words: 'This day is over already.', field: 'until' }
  const clearance = {
    kind: 'clearance',
    athlete,
    state: form.choice('state'),
    ceiling: ceilingFrom(form),
    until,
  }
  const hands = onTheWay ? [plan, clearance] : [plan]
  const rises = hands.flatMap((one) => {
    const parsed = Submission.safeParse(one)
    return parsed.success ? raises(chart, parsed.data, desk.library, today) : []
  })
  return { hands, raises: rises }
})

function planFrom(form: Form, athlete: string): object {
  return {
    kind: 'plan-signed',
    athlete,
    ladder: form.choice('ladder'),
    startRung: form.number('startRung'),
    days: form.choices('days'),
    ceiling: ceilingFrom(form),
    programme: form.choice('programme'),
  }
}
