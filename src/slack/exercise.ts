import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Exercise, Programme } from '../chart/programme.ts'
import type { Refusal } from '../rules/decision.ts'
import { type Modal, modal, numberInput, option, section, select, textInput } from './blocks.ts'
import { balanceFields, balanceFrom } from './exercise-balance.ts'
import type { Form } from './form.ts'
import { dayPicker, lineInput, manyFrom, optionsOf, selectFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

type Shelved = { readonly programmes: readonly Programme[] }

/** Rows for exercises that were done otherwise than written. */
const rows = 3
const scale = optionsOf(Array.from({ length: 11 }, (_, pain) => String(pain)))

/**
 * The log of exercises, for whoever may write it: the athlete, the strength coach, the therapist. It says nothing of
 * the injury. Chosen from the list means done as written and without pain; anything else is typed in a row.
 */
export function exerciseModal(chart: Chart, shelf: Shelved, day: Day): Modal {
  const about = { athlete: chart.athlete }
  return modal({ door: 'exercise', title: 'Log exercises', submit: 'Save', about }, [
    dayPicker({ name: 'day', label: 'Done on' }, day),
    ...exerciseFields(exercisesFor(chart, shelf), rows),
    ...balanceFields(),
    textInput({ name: 'note', label: 'Note', optional: true }),
  ])
}

export const exerciseRead = reads(OfAthlete, async ({ doorway }, form, { athlete }) => {
  const { charts, library } = doorway.desk
  const exercises = exercisesFrom(form, exercisesFor(await charts.read(athlete), library), rows)
  if ('refused' in exercises) return exercises
  const balance = balanceFrom(form)
  if (exercises.length === 0 && balance.length === 0)
    return {
      refused: 'nothing-done',
      words: 'Choose what was done, or write it in a row.',
      field: 'asWritten',
    }
  const note = form.text('note')
  const more = { ...(balance.length > 0 ? { balance } : {}), ...(note ? { note } : {}) }
  return { hands: [{ kind: 'exercise-done', athlete, day: form.day('day'), exercises, ...more }] }
})

/** What can be logged: the exercises that were signed, else those that the shelf has for the tissue, else all of them. */
export function exercisesFor({ plan, episode }: Chart, { programmes }: Shelved): readonly Exercise[] {
  if (plan?.programme) return plan.programme.exercises
  const fitting = programmes.filter((one) => episode && one.tissues.includes(episode.tissue))
  const all = (fitting.length > 0 ? fitting : programmes).flatMap((one) => one.exercises)
  return [...new Map(all.map((one) => [one.exercise, one])).values()]
}

/** The list, `count` rows for what was done otherwise, and one exercise that stands on no list. */
export function exerciseFields(exercises: readonly Exercise[], count: number): KnownBlock[] {
  const options = exercises.map((one) => option(one.exercise, one.title))
  if (options.length === 0) return otherFields()
  return [
    manyFrom(
      { name: 'asWritten', label: 'Exercises done as written and without pain', optional: true },
      options,
    ),
    section('Done otherwise, or with pain: one row each.'),
    ...Array.from({ length: count }, (_, i) => rowFields(i + 1, options)).flat(),
    ...otherFields(),
  ]
}

function rowFields(row: number, options: ReturnType<typeof optionsOf>): KnownBlock[] {
  return [
    selectFrom({ name: `exercise-${row}`, label: `Row ${row}: exercise`, optional: true }, options),
    ...amountFields(`-${row}`, `Row ${row}: `),
    select({ name: `pain-${row}`, label: `Row ${row}: pain (0-10)`, optional: true }, scale),
  ]
}

function otherFields(): KnownBlock[] {
  return [
    lineInput({ name: 'other', label: 'Another exercise, in a few words', optional: true, most: 60 }),
    selectFrom({ name: 'where', label: 'Where it was done', optional: true }, [
      option('off-treadmill', 'off the treadmill'),
      option('in-treadmill', 'in the treadmill'),
    ]),
    ...amountFields('-other', 'The other one: '),
    select({ name: 'pain-other', label: 'The other one: pain (0-10)', optional: true }, scale),
  ]
}

function amountFields(end: string, before: string): KnownBlock[] {
  const field = (name: string, label: string, low: number, high: number) =>
    numberInput({ name: `${name}${end}`, label: `${before}${label}`, low, high, optional: true })
  return [
    field('sets', 'sets', 0, 50),
    field('repeats', 'repeats in a set', 0, 500),
    field('holdSeconds', 'seconds held', 0, 3600),
    field('bodyWeightPct', 'body weight carried in the treadmill, in %', 1, 100),
  ]
}

/** The lines that were logged; a refusal at the field where a row is half filled in. */
export function exercisesFrom(
  form: Form,
  exercises: readonly Exercise[],
  count: number,
): readonly object[] | Refusal {
  const known = new Map(exercises.map((one) => [one.exercise, one]))
  const asWritten = form.choices('asWritten') ?? []
  if (asWritten.some((id) => !known.has(id)))
    return refuse('The list has changed: open it again.', 'asWritten')
  const lines: object[] = [...known.values()].filter((one) => asWritten.includes(one.exercise)).map(written)
  for (let row = 1; row <= count; row += 1) {
    const line = rowFrom(form, row, known, asWritten)
    if (line && 'refused' in line) return line as Refusal
    if (line) lines.push(line)
  }
  const other = otherFrom(form)
  if (other && 'refused' in other) return other as Refusal
  return other ? [...lines, other] : lines
}

/** At the easiest reading of what was asked. */
function written(one: Exercise): object {
  const { exercise, where, sets, repeats, holdSeconds, bodyWeightPct } = one
  return {
    exercise,
    where,
    sets: sets.low,
    ...(repeats ? { repeats: repeats.low } : {}),
    ...(holdSeconds ? { holdSeconds: holdSeconds.low } : {}),
    ...(bodyWeightPct === undefined ? {} : { bodyWeightPct }),
    pain: 0,
  }
}

function rowFrom(
  form: Form,
  row: number,
  known: ReadonlyMap<string, Exercise>,
  asWritten: readonly string[],
): object | Refusal | undefined {
  const amounts = amountsFrom(form, `-${row}`)
  const chosen = form.choice(`exercise-${row}`)
  if (chosen === undefined)
    return Object.keys(amounts).length > 0 ? refuse('Which exercise is this?', `exercise-${row}`) : undefined
  const exercise = known.get(chosen)
  if (!exercise) return refuse('The list has changed: open it again.', `exercise-${row}`)
  if (asWritten.includes(chosen))
    return refuse('It is also in the list of those done as written.', `exercise-${row}`)
  if (!('sets' in amounts)) return refuse('How many sets?', `sets-${row}`)
  const { where, bodyWeightPct } = exercise
  return { exercise: chosen, where, ...(bodyWeightPct === undefined ? {} : { bodyWeightPct }), ...amounts }
}

function otherFrom(form: Form): object | Refusal | undefined {
  const amounts = amountsFrom(form, '-other')
  const said = form.text('other')?.trim()
  const where = form.choice('where')
  if (!said)
    return Object.keys(amounts).length > 0 || where ? refuse('Which exercise is this?', 'other') : undefined
  const exercise = said
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
  if (exercise === '') return refuse('Write it in plain letters, such as "step down".', 'other')
  if (!where) return refuse('In the treadmill or off it?', 'where')
  if (!('sets' in amounts)) return refuse('How many sets?', 'sets-other')
  return { exercise, where, ...amounts }
}

function amountsFrom(form: Form, end: string): object {
  const pain = form.choice(`pain${end}`)
  const numbers = (['sets', 'repeats', 'holdSeconds', 'bodyWeightPct'] as const).flatMap((name) => {
    const value = form.number(`${name}${end}`)
    return value === undefined ? [] : [[name, value] as const]
  })
  return { ...Object.fromEntries(numbers), ...(pain === undefined ? {} : { pain: Number(pain) }) }
}

function refuse(words: string, field: string): Refusal {
  return { refused: 'half-filled', words, field }
}
