import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { type SignGroup, signs } from '../chart/signs.ts'
import { groupsAsked } from '../rules/check-in.ts'
import type { Refusal } from '../rules/decision.ts'
import {
  buttons,
  checkboxes,
  type Message,
  type Modal,
  modal,
  numberInput,
  option,
  radio,
  section,
  select,
  textInput,
} from './blocks.ts'
import type { Form } from './form.ts'
import { readinessFrom, readinessSelects } from './readiness.ts'

const none = 'none'

/** The morning question. It asks nothing itself: the answers belong in a form, not in a chat. */
export function promptMessage(): Message {
  return {
    text: 'Good morning. Your check-in is ready.',
    blocks: [
      section('Good morning. Your check-in takes half a minute; your plan for today follows at once.'),
      buttons({ does: 'open-check-in', label: 'Check in', main: true }),
    ],
  }
}

export function checkInModal(chart: Chart, day: Day, { clinic }: Team): Modal {
  const groups = groupsAsked(chart, day, clinic)
  return modal(
    { door: 'check-in', title: 'Check-in', submit: 'Send', about: { athlete: chart.athlete, day } },
    [
      checkboxes({ name: 'noPain', label: 'No pain at all?', optional: true }, [
        option('yes', 'None at the injured place since my last check-in, and none now'),
      ]),
      painSelect('worstPain', 'Worst pain at the injured place since your last check-in'),
      painSelect('morningPain', 'Pain there now, getting up'),
      radio({ name: 'swelling', label: 'More swollen than yesterday?' }, [
        option('no', 'No'),
        option('yes', 'Yes'),
        option('not sure', 'Not sure'),
      ]),
      ...groups.flatMap((group) =>
        group === 'surgery' ? [...temperatureInputs(), signBoxes(group)] : [signBoxes(group)],
      ),
      textInput({ name: 'note', label: 'Anything that worries you', optional: true }),
      ...readinessSelects(),
    ],
  )
}

/** The one reminder of a day. */
export function reminderMessage(): Message {
  return {
    text: 'Your check-in is still open.',
    blocks: [
      section('Your check-in of this morning is still open. Without it there is no plan for today.'),
      buttons({ does: 'open-check-in', label: 'Check in', main: true }),
    ],
  }
}

/** What the form says, as a submission; undefined fields are for the desk to refuse. */
export function checkInFrom(form: Form, athlete: string, day: Day): unknown {
  const note = form.text('note')
  return {
    kind: 'check-in',
    athlete,
    day,
    answers: {
      worstPain: hasNoPain(form) ? 0 : numberOf(form.choice('worstPain')),
      morningPain: hasNoPain(form) ? 0 : numberOf(form.choice('morningPain')),
      swelling: form.choice('swelling'),
      signs: Object.fromEntries(
        (Object.keys(signs) as SignGroup[]).flatMap((group) => {
          const ticks = form.choices(`signs-${group}`)
          return ticks && ticks.length > 0 ? [[group, ticks.filter((tick) => tick !== none)]] : []
        }),
      ),
      ...temperatureFrom(form),
      ...readinessFrom(form),
      ...(note ? { note } : {}),
    },
  }
}

/** "None" beside a pain or a sign is a contradiction that only the athlete can resolve; so is no answer at all. */
export function contradiction(form: Form): Refusal | undefined {
  for (const name of ['worstPain', 'morningPain']) {
    const pain = numberOf(form.choice(name))
    if (hasNoPain(form) && pain !== undefined && pain > 0)
      return { refused: 'contradiction', words: 'Either no pain at all, or how much.', field: name }
    if (!hasNoPain(form) && pain === undefined)
      return { refused: 'missing', words: 'How much was it? Or tick "none at all" above.', field: name }
  }
  for (const group of Object.keys(signs)) {
    const ticks = form.choices(`signs-${group}`) ?? []
    if (ticks.includes(none) && ticks.length > 1)
      return {
        refused: 'contradiction',
        words: 'Tick either what applies or "none of these".',
        field: `signs-${group}`,
      }
  }
  return undefined
}

/** A number, or the word that it was not taken: one of the two, and both say something. */
function temperatureInputs(): KnownBlock[] {
  return [
    radio({ name: 'temperature', label: 'Have you taken your temperature?' }, [
      option('taken', 'Yes, I type it below'),
      option('not taken', 'No'),
    ]),
    numberInput({
      name: 'temperatureC',
      label: 'Temperature in °C',
      low: 30,
      high: 45,
      decimal: true,
      optional: true,
    }),
  ]
}

/** A typed number counts whatever the box says; "yes" without a number is left for the desk to refuse. */
function temperatureFrom(form: Form): { readonly temperature?: number | string } {
  const typed = form.number('temperatureC')
  if (typed !== undefined) return { temperature: typed }
  return form.choice('temperature') === 'not taken' ? { temperature: 'not taken' } : {}
}

function painSelect(name: string, label: string): KnownBlock {
  const options = Array.from({ length: 11 }, (_, pain) => option(String(pain), painWords(pain)))
  const hint = '0 is no pain, 10 the worst you can think of. Leave it open when you ticked "none".'
  return select({ name, label, hint, optional: true }, options)
}

/** One tick says both: it is an answer, never a default. */
function hasNoPain(form: Form): boolean {
  return form.choices('noPain')?.includes('yes') ?? false
}

function painWords(pain: number): string {
  return pain === 0 ? '0, no pain' : pain === 10 ? '10, the worst' : String(pain)
}

function signBoxes(group: SignGroup): KnownBlock {
  const labels: Record<SignGroup, string> = {
    always: 'Any of these since your last check-in?',
    surgery: 'After your operation: any of these?',
    bone: 'At the bone: any of these?',
    knee: 'At the knee: any of these?',
  }
  const options = Object.entries(signs[group]).map(([sign, words]) => option(sign, words))
  return checkboxes({ name: `signs-${group}`, label: labels[group] }, [
    option(none, 'None of these'),
    ...options,
  ])
}

function numberOf(choice: string | undefined): number | undefined {
  return choice === undefined ? undefined : Number(choice)
}
