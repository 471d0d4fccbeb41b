import type { KnownBlock } from '@slack/types'
import { type Chart, prescriptionOf } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Bout, DoneBout } from '../chart/dose.ts'
import { Soreness } from '../chart/session.ts'
import type { Refusal } from '../rules/decision.ts'
import { withChange } from '../rules/live-change.ts'
import { settingsOf } from '../rules/settings.ts'
import { buttons, type Modal, modal, numberInput, option, section, select, textInput } from './blocks.ts'
import type { Form } from './form.ts'
import { runsOf } from './prescribed-runs.ts'
import { changeFields, changeFrom } from './session-change.ts'

/** What the form remembers of the prescription: how many bouts it shows, and what nobody types. */
export type Prefilled = {
  readonly athlete: string
  readonly day: Day
  readonly inclinesPct?: readonly number[]
  /** On the ground or a track all of the weight is carried, and nobody is asked. */
  readonly ground?: boolean
  /** What was turned down, and the weight as measured, are asked too. */
  readonly more?: boolean
}

/** As many runs in a row as a ladder of ours has, and some. */
const mostBouts = 10
export const scale = Array.from({ length: 11 }, (_, pain) => option(String(pain), String(pain)))

/**
 * The log of a run, filled in from the prescription: only differences need typing. What is seldom needed comes when it
 * is asked for; what was typed before stays, because its fields keep their names.
 */
export function sessionModal(chart: Chart, day: Day, more = false): Modal {
  const dose = prescriptionOf(chart, day)?.dose
  const running = runsOf(dose)
  const bouts = running.length > 0 ? running.slice(0, mostBouts) : [undefined]
  const ground = dose !== undefined && dose.on !== 'lbpp-treadmill'
  const about: Prefilled = {
    athlete: chart.athlete,
    day,
    inclinesPct: bouts.map((bout) => bout?.inclinePct ?? 0),
    ...(ground ? { ground } : {}),
    ...(more ? { more } : {}),
  }
  return modal({ door: 'session', title: 'Log a run', submit: 'Save', about }, [
    section(
      running.length > 0
        ? `The run of *${day}*, filled in as it was prescribed. Not run? Press "I did not run" under that day's plan.`
        : `The run of *${day}*. No run was prescribed: your therapist hears of it.`,
    ),
    ...bouts.flatMap((bout, i) => {
      const before = bouts.length > 1 ? `Bout ${i + 1}: ` : ''
      return boutFields(bout, { i, before, ground, more })
    }),
    ...(more ? changeFields(ground) : [buttons({ does: 'more-session', label: moreLabel(ground) })]),
    select({ name: 'painBefore', label: 'Pain before (0-10)' }, scale),
    select({ name: 'painDuring', label: 'Worst pain during (0-10)' }, scale),
    select({ name: 'painAfter', label: 'Pain after (0-10)' }, scale),
    ...(settingsOf(chart).sorenessRows ? [sorenessSelect] : []),
    select({ name: 'rpe', label: 'How hard was it, 0 rest to 10 maximal' }, scale),
    textInput({ name: 'note', label: 'Note', optional: true }),
  ])
}

function moreLabel(ground: boolean): string {
  return ground ? 'It was turned down or ended early' : 'Turned down, ended early, or weight measured'
}

type Field = {
  readonly i: number
  readonly before: string
  readonly ground: boolean
  readonly more: boolean
}

function boutFields(bout: Bout | undefined, { i, before, ground, more }: Field): KnownBlock[] {
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  const field = (name: string, label: string) => ({ name: nameOf(name, i), label: `${before}${label}` })
  const kmh = bout?.speedMps && Number((bout.speedMps.low * 3.6).toFixed(1))
  const weight = field('bodyWeightPct', 'body weight carried, as set, in %')
  const measured = field('measuredBodyWeightPct', 'body weight carried, as measured, in %')
  return [
    ...(ground ? [] : [numberInput({ ...weight, low: 1, high: 100, ...initial(bout?.bodyWeightPct) })]),
    ...(ground || !more
      ? []
      : [numberInput({ ...measured, low: 1, high: 120, decimal: true, optional: true })]),
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

/** The session as it was done; a refusal where a change is half filled in. */
export function sessionFrom(form: Form, of: Prefilled): object | Refusal {
  const { athlete, day, inclinesPct = [0], ground = false } = of
  const change = changeFrom(form)
  if (change && 'refused' in change) return change as Refusal
  const chosen = (name: string) => (form.choice(name) === undefined ? undefined : Number(form.choice(name)))
  const note = form.text('note')
  const started = inclinesPct.map((inclinePct, i) => boutFrom(form, i, inclinePct, ground)) as DoneBout[]
  const bouts = change ? withChange(started, change) : started
  if (bouts.length === 0)
    return {
      refused: 'nothing-run',
      words: 'Then nothing was run: leave this form and press "I did not run".',
      field: 'changeAtMinute',
    }
  return {
    kind: 'session-done',
    athlete,
    day,
    bouts,
    painBefore: chosen('painBefore'),
    painDuring: chosen('painDuring'),
    painAfter: chosen('painAfter'),
    soreness: form.choice('soreness'),
    rpe: chosen('rpe'),
    ...(change ? { changes: [change] } : {}),
    ...(note ? { note } : {}),
  }
}

/** What is missing is for the desk to refuse. */
function boutFrom(form: Form, i: number, inclinePct: number, ground: boolean): object {
  const speedKmh = form.number(nameOf('speedKmh', i))
  const measuredBodyWeightPct = form.number(nameOf('measuredBodyWeightPct', i))
  return {
    gait: 'run',
    bodyWeightPct: ground ? 100 : form.number(nameOf('bodyWeightPct', i)),
    ...(measuredBodyWeightPct === undefined ? {} : { measuredBodyWeightPct }),
    speedMps: speedKmh === undefined ? undefined : speedKmh / 3.6,
    inclinePct,
    minutes: form.number(nameOf('minutes', i)),
    repeats: form.number(nameOf('repeats', i)),
  }
}

function nameOf(field: string, i: number): string {
  return i === 0 ? field : `${field}-${i + 1}`
}
