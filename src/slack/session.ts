import type { KnownBlock } from '@slack/types'
import { type Chart, prescriptionOf } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Bout } from '../chart/dose.ts'
import { Soreness } from '../chart/session.ts'
import { settingsOf } from '../rules/settings.ts'
import { type Modal, modal, numberInput, option, select, textInput } from './blocks.ts'
import type { Form } from './form.ts'

/** What the form remembers of the prescription: how many bouts it shows, and the inclines, which nobody types. */
export type Prefilled = {
  readonly athlete: string
  readonly day: Day
  readonly inclinesPct?: readonly number[]
}

const mostBouts = 4
export const scale = Array.from({ length: 11 }, (_, pain) => option(String(pain), String(pain)))

/** The log of a run, filled in from the prescription: only differences need typing. */
export function sessionModal(chart: Chart, day: Day): Modal {
  const running = prescriptionOf(chart, day)?.dose?.bouts.filter((bout) => bout.gait === 'run') ?? []
  const bouts = running.length > 0 ? running.slice(0, mostBouts) : [undefined]
  const about: Prefilled = {
    athlete: chart.athlete,
    day,
    inclinesPct: bouts.map((bout) => bout?.inclinePct ?? 0),
  }
  return modal({ door: 'session', title: 'Log a run', submit: 'Save', about }, [
    ...bouts.flatMap((bout, i) => boutFields(bout, i, bouts.length > 1 ? `Bout ${i + 1}: ` : '')),
    select({ name: 'painBefore', label: 'Pain before (0-10)' }, scale),
    select({ name: 'painDuring', label: 'Worst pain during (0-10)' }, scale),
    select({ name: 'painAfter', label: 'Pain after (0-10)' }, scale),
    ...(settingsOf(chart).sorenessRows ? [sorenessSelect] : []),
    select({ name: 'rpe', label: 'How hard was it, 0 rest to 10 maximal' }, scale),
    textInput({ name: 'note', label: 'Note', optional: true }),
  ])
}

function boutFields(bout: Bout | undefined, i: number, before: string): KnownBlock[] {
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  const field = (name: string, label: string) => ({ name: nameOf(name, i), label: `${before}${label}` })
  const kmh = bout?.speedMps && Number((bout.speedMps.low * 3.6).toFixed(1))
  return [
    numberInput({
      ...field('bodyWeightPct', 'body weight carried, in %'),
      low: 1,
      high: 100,
      ...initial(bout?.bodyWeightPct),
    }),
    numberInput({ ...field('speedKmh', 'speed, in km/h'), low: 0, high: 36, decimal: true, ...initial(kmh) }),
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
      decimal: true,
      ...initial(bout && minutesOf(bout)),
    }),
  ]
}

/** At its easiest reading; a bout given in metres takes as long as its speed says, rounded up. */
export function minutesOf({ minutes, distanceM, speedMps }: Bout): number | undefined {
  if (minutes) return minutes.low
  return distanceM && speedMps ? Math.ceil((100 * distanceM) / speedMps.low / 60) / 100 : undefined
}

const sorenessWords: Record<Soreness, string> = {
  none: 'None',
  'warm-up-gone': 'In the warm-up, then gone',
  'warm-up-stayed': 'In the warm-up, and it stayed',
  'went-and-came-back': 'It went and came back',
  after: 'Only after the run',
}

export const sorenessSelect = select(
  {
    name: 'soreness',
    label: 'Soreness at the injured place',
    hint: 'Not the ordinary soreness of muscles',
  },
  Soreness.options.map((one) => option(one, sorenessWords[one])),
)

export function sessionFrom(form: Form, { athlete, day, inclinesPct = [0] }: Prefilled): unknown {
  const chosen = (name: string) => (form.choice(name) === undefined ? undefined : Number(form.choice(name)))
  const note = form.text('note')
  return {
    kind: 'session-done',
    athlete,
    day,
    bouts: inclinesPct.map((inclinePct, i) => boutFrom(form, i, inclinePct)),
    painBefore: chosen('painBefore'),
    painDuring: chosen('painDuring'),
    painAfter: chosen('painAfter'),
    soreness: form.choice('soreness'),
    rpe: chosen('rpe'),
    ...(note ? { note } : {}),
  }
}

function boutFrom(form: Form, i: number, inclinePct: number): object {
  const speedKmh = form.number(nameOf('speedKmh', i))
  return {
    gait: 'run',
    bodyWeightPct: form.number(nameOf('bodyWeightPct', i)),
    speedMps: speedKmh === undefined ? undefined : speedKmh / 3.6,
    inclinePct,
    minutes: form.number(nameOf('minutes', i)),
    repeats: form.number(nameOf('repeats', i)),
  }
}

function nameOf(field: string, i: number): string {
  return i === 0 ? field : `${field}-${i + 1}`
}
