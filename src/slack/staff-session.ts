import type { KnownBlock } from '@slack/types'
import { z } from 'zod'
import { type Chart, prescriptionOf } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Bout } from '../chart/dose.ts'
import { LiveChange } from '../chart/session.ts'
import type { Library } from '../desk/library.ts'
import type { Refusal } from '../rules/decision.ts'
import { settingsOf } from '../rules/settings.ts'
import { unloggedDays } from '../rules/unlogged.ts'
import { header, type Modal, modal, numberInput, option, section, select, textInput } from './blocks.ts'
import { exerciseFields, exercisesFor, exercisesFrom } from './exercise.ts'
import { balanceFields, balanceFrom } from './exercise-balance.ts'
import type { Form } from './form.ts'
import { boxesFrom, dayPicker, lineInput, optionsOf, radioFrom, selectFrom } from './pickers.ts'
import { runsOf } from './prescribed-runs.ts'
import { reads } from './reading.ts'
import { minutesOf, scale, sorenessSelect } from './session.ts'

/** With one more than prescribed; as many as a form of a hundred blocks holds. */
const mostBouts = 10
const OfSession = z.object({ athlete: z.string(), bouts: z.number().int().min(1).max(mostBouts) })

/**
 * A run as staff saw it, filled in from the prescription: bout by bout with what was set and what was weighed, gait,
 * what was changed while running, exercises and balance. One bout more than prescribed may be written.
 */
export function staffSessionModal(chart: Chart, library: Library, today: Day): Modal {
  const day = unloggedDays(chart, today)[0] ?? today
  const prescribed = runsOf(prescriptionOf(chart, day)?.dose).slice(0, mostBouts - 1)
  const bouts = [...prescribed, undefined]
  const about = { athlete: chart.athlete, bouts: bouts.length }
  return modal({ door: 'staff-session', title: 'Log a run', submit: 'Save', about }, [
    section(
      prescribed.length > 0 ? `Filled in from what was prescribed for ${day}.` : 'No run was prescribed.',
    ),
    dayPicker({ name: 'day', label: 'Run on' }, day),
    ...bouts.flatMap((bout, i) => boutFields(bout, i + 1)),
    select({ name: 'painBefore', label: 'Pain before (0-10)' }, scale),
    select({ name: 'painDuring', label: 'Worst pain during (0-10)' }, scale),
    select({ name: 'painAfter', label: 'Pain after (0-10)' }, scale),
    ...(settingsOf(chart).sorenessRows ? [sorenessSelect] : []),
    select({ name: 'rpe', label: 'How hard was it, 0 rest to 10 maximal' }, scale),
    ...gaitFields(),
    ...changeFields(),
    header('Exercises and balance'),
    ...exerciseFields(exercisesFor(chart, library), 0),
    ...balanceFields(),
    textInput({ name: 'note', label: 'Note', optional: true }),
  ])
}

function boutFields(bout: Bout | undefined, n: number): KnownBlock[] {
  const optional = bout === undefined
  const field = (name: string, label: string) => ({
    name: `${name}-${n}`,
    label: `${optional && n > 1 ? 'One more bout' : `Bout ${n}`}: ${label}`,
    optional,
  })
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  const kmh = bout?.speedMps && Number((bout.speedMps.low * 3.6).toFixed(1))
  const decimal = true
  return [
    selectFrom(field('gait', 'gait'), optionsOf(['run', 'walk']), bout?.gait),
    numberInput({
      ...field('bodyWeightPct', 'body weight as set, in %'),
      low: 1,
      high: 100,
      ...initial(bout?.bodyWeightPct),
    }),
    numberInput({
      ...field('measuredPct', 'body weight as weighed in the machine, in %'),
      optional: true,
      low: 1,
      high: 120,
      decimal,
    }),
    numberInput({ ...field('speedKmh', 'speed, in km/h'), low: 0, high: 36, decimal, ...initial(kmh) }),
    numberInput({
      ...field('inclinePct', 'incline, in %'),
      low: -15,
      high: 30,
      decimal,
      ...initial(bout?.inclinePct),
    }),
    numberInput({
      ...field('repeats', 'how many times'),
      low: 0,
      high: 100,
      ...initial(bout?.repeats.low),
    }),
    numberInput({
      ...field('minutes', 'minutes each time'),
      low: 0,
      high: 240,
      decimal,
      ...initial(bout && minutesOf(bout)),
    }),
  ]
}

function gaitFields(): KnownBlock[] {
  return [
    header('Gait, as you saw it'),
    radioFrom({ name: 'looked', label: 'It looked', optional: true }, [
      option('even', 'even'),
      option('limp', 'with a limp'),
    ]),
    radioFrom({ name: 'side', label: 'Limp on which side', optional: true }, optionsOf(['left', 'right'])),
    lineInput({ name: 'gaitNote', label: 'What was seen', optional: true, most: 300 }),
    lineInput({
      name: 'filmKeptAt',
      label: 'Where a film of it is kept',
      hint: 'The film itself is never kept here.',
      optional: true,
      most: 300,
    }),
  ]
}

function changeFields(): KnownBlock[] {
  const field = (name: string, label: string) => ({ name, label: `Changed: ${label}`, optional: true })
  return [
    header('Changed while running'),
    numberInput({ ...field('atMinute', 'in which minute'), low: 0, high: 240 }),
    selectFrom(field('why', 'why'), optionsOf(LiveChange.shape.why.options)),
    select(field('changePain', 'pain then (0-10)'), scale),
    numberInput({ ...field('toBodyWeightPct', 'body weight from then on, in %'), low: 1, high: 100 }),
    numberInput({ ...field('toSpeedKmh', 'speed from then on, in km/h'), low: 0, high: 36, decimal: true }),
    boxesFrom(field('stopped', 'ended'), [option('yes', 'The run was ended there')]),
  ]
}

export const staffSessionRead = reads(OfSession, async ({ doorway }, form, { athlete, bouts }) => {
  const { charts, library } = doorway.desk
  const done = boutsFrom(form, bouts)
  if ('refused' in done) return done
  const change = changeFrom(form)
  if (change && 'refused' in change) return change as Refusal
  const exercises = exercisesFrom(form, exercisesFor(await charts.read(athlete), library), 0)
  if ('refused' in exercises) return exercises
  const balance = balanceFrom(form)
  const chosen = (name: string) => (form.choice(name) === undefined ? undefined : Number(form.choice(name)))
  return {
    hands: [
      {
        kind: 'session-done',
        athlete,
        day: form.day('day'),
        bouts: done,
        painBefore: chosen('painBefore'),
        painDuring: chosen('painDuring'),
        painAfter: chosen('painAfter'),
        soreness: form.choice('soreness'),
        rpe: chosen('rpe'),
        ...(change ? { changes: [change] } : {}),
        ...gaitFrom(form),
        ...(exercises.length > 0 ? { exercises } : {}),
        ...(balance.length > 0 ? { balance } : {}),
        note: form.text('note') || undefined,
      },
    ],
  }
})

const needed = ['gait', 'bodyWeightPct', 'speedKmh', 'inclinePct', 'repeats', 'minutes'] as const

/** Every bout that was written; one that is written in part is refused at what it lacks. */
function boutsFrom(form: Form, count: number): readonly object[] | Refusal {
  const done: object[] = []
  for (let n = 1; n <= count; n += 1) {
    const said = (name: string) => (name === 'gait' ? form.choice(`gait-${n}`) : form.text(`${name}-${n}`))
    const lacks = needed.find((name) => said(name) === undefined)
    if (lacks && (n < count || [...needed, 'measuredPct'].some((name) => said(name) !== undefined)))
      return { refused: 'half-filled', words: `Bout ${n} lacks this.`, field: `${lacks}-${n}` }
    if (!lacks) done.push(boutFrom(form, n))
  }
  return done.length > 0 ? done : { refused: 'no-bout', words: 'What was run?', field: 'gait-1' }
}

function boutFrom(form: Form, n: number): object {
  const number = (name: string) => form.number(`${name}-${n}`)
  const measured = number('measuredPct')
  return {
    gait: form.choice(`gait-${n}`),
    bodyWeightPct: number('bodyWeightPct'),
    ...(measured === undefined ? {} : { measuredBodyWeightPct: measured }),
    speedMps: (number('speedKmh') ?? 0) / 3.6,
    inclinePct: number('inclinePct'),
    minutes: number('minutes'),
    repeats: number('repeats'),
  }
}

function gaitFrom(form: Form): object {
  const looked = form.choice('looked')
  const [note, filmKeptAt] = [form.text('gaitNote'), form.text('filmKeptAt')]
  if (!looked && !note && !filmKeptAt) return {}
  const side = looked === 'limp' ? form.choice('side') : undefined
  return { gait: { looked, side, ...(note ? { note } : {}), ...(filmKeptAt ? { filmKeptAt } : {}) } }
}

function changeFrom(form: Form): object | Refusal | undefined {
  const kmh = form.number('toSpeedKmh')
  const pain = form.choice('changePain')
  const given = {
    why: form.choice('why'),
    pain: pain === undefined ? undefined : Number(pain),
    bodyWeightPct: form.number('toBodyWeightPct'),
    speedMps: kmh === undefined ? undefined : kmh / 3.6,
    stopped: form.choices('stopped')?.includes('yes') || undefined,
  }
  const atMinute = form.number('atMinute')
  const any = Object.values(given).some((value) => value !== undefined)
  if (atMinute === undefined) return any ? lacking('In which minute?', 'atMinute') : undefined
  return given.why ? { atMinute, ...given } : lacking('Why was it changed?', 'why')
}

function lacking(words: string, field: string): Refusal {
  return { refused: 'half-filled', words, field }
}
