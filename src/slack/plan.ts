import type { KnownBlock } from '@slack/types'
import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import { dayAt, Weekday } from '../chart/day.ts'
import { LadderWish } from '../chart/ladder-wish.ts'
import type { Library } from '../desk/library.ts'
import { signedBefore } from '../rules/family-choice.ts'
import { raises } from '../rules/raises.ts'
import { Submission } from '../rules/submissions.ts'
import {
  buttons,
  context,
  escaped,
  type Modal,
  modal,
  numberInput,
  option,
  screen,
  section,
} from './blocks.ts'
import { ceilingFields, ceilingFrom } from './ceiling.ts'
import { settingFields, settingsFrom } from './family-settings.ts'
import type { Form } from './form.ts'
import { boxesFrom, dayPicker, optionsOf, selectFrom } from './pickers.ts'
import { reads } from './reading.ts'

const OfPlan = z.object({ athlete: z.string(), onTheWay: z.boolean(), wish: LadderWish.optional() })
const newestOf = (one: { id: string; version: number }) => `${one.id}@${one.version}`

/** Ladder, start, days, ceiling and rules of pain; on the way through an enrolment the first clearance as well. */
export function planModal(
  chart: Chart,
  library: Library,
  where: 'on the way' | 'alone',
  name: string,
): Modal {
  const tissue = chart.episode?.tissue
  const ladders = library.ladders.filter((ladder) => tissue && ladder.tissues.includes(tissue))
  const onTheWay = where === 'on the way'
  const about = { athlete: chart.athlete, onTheWay }
  const builds = buttons({
    does: 'open-builder',
    label: 'Build a ladder instead',
    value: JSON.stringify(about),
  })
  if (ladders.length === 0)
    return screen({ door: 'plan', title: 'No ladder', about }, [
      section(`There is no ladder for ${tissue ?? 'this episode'} in the shared folder.`),
      builds,
    ])
  return modal({ door: 'plan', title: onTheWay ? 'Enrol: 3 of 3' : 'Sign a plan', submit: 'Sign', about }, [
    section(`The plan of *${escaped(name)}*.${onTheWay ? ' The first two forms are saved.' : ''}`),
    selectFrom(
      { name: 'ladder', label: 'Ladder' },
      ladders.map((one) => option(newestOf(one), `${one.title} (${one.rungs.length} rungs)`)),
      chart.plan && newestOf(chart.plan.ladder),
    ),
    builds,
    ...planFields(chart, library, { rungs: Math.max(...ladders.map((one) => one.rungs.length)), onTheWay }),
  ])
}

/** What is signed with any ladder, of the shelf or built. */
export function planFields(
  chart: Chart,
  library: Library,
  { rungs, onTheWay }: { readonly rungs: number; readonly onTheWay: boolean },
): KnownBlock[] {
  const { plan, episode } = chart
  const programmes = library.programmes.filter((one) => episode && one.tissues.includes(episode.tissue))
  return [
    numberInput({ name: 'startRung', label: 'Start on rung', low: 1, high: rungs, initial: 1 }),
    boxesFrom(
      { name: 'days', label: 'Days on which running is possible' },
      weekdays,
      plan?.days ?? Weekday.options,
    ),
    ...ceilingFields('Ceiling', plan?.ceiling),
    ...(programmes.length > 0
      ? [
          selectFrom(
            { name: 'programme', label: 'Exercises on days without a run', optional: true },
            programmes.map((one) => option(newestOf(one), one.title)),
            plan?.programme && newestOf(plan.programme),
          ),
        ]
      : []),
    ...(onTheWay
      ? [
          selectFrom({ name: 'state', label: 'Cleared for' }, optionsOf(State.options), 'unloaded running'),
          dayPicker({ name: 'until', label: 'Clearance lapses after' }),
        ]
      : []),
    ...(episode ? settingFields(library.family(episode.tissue), signedBefore(chart)) : []),
    context('A new plan starts anew on its first rung: runs before it no longer count for steps up.'),
  ]
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

/** A built ladder is handed in as what was wished, and the rules build it again (D20). */
export const planRead = reads(OfPlan, async ({ doorway }, form, { athlete, onTheWay, wish }) => {
  const { desk } = doorway
  const chart = await desk.charts.read(athlete)
  const family = chart.episode && desk.library.family(chart.episode.tissue)
  const plan = {
    kind: 'plan-signed',
    athlete,
    ladder: wish ? { built: wish } : form.choice('ladder'),
    ...planFrom(form),
    ...(family ? { settings: settingsFrom(form, family) } : {}),
  }
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

function planFrom(form: Form): object {
  return {
    startRung: form.number('startRung'),
    days: form.choices('days'),
    ceiling: ceilingFrom(form),
    programme: form.choice('programme'),
  }
}
