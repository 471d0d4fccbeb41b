import type { Chart } from '../chart/chart.ts'
import { prescriptionOf } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Dose } from '../chart/dose.ts'
import { type Modal, modal, numberInput, option, select, textInput } from './blocks.ts'
import type { Form } from './form.ts'

/** The log of a run, filled in from the prescription: only differences need typing. */
export function sessionModal(chart: Chart, day: Day): Modal {
  const dose = prescriptionOf(chart, day)?.dose
  const bout = dose?.bouts.find((b) => b.gait === 'run')
  const asked = dose && inOne(dose)
  const initial = <K extends string>(name: K, value: number | undefined) =>
    value === undefined ? {} : { [name]: value }
  const kmh = bout?.speedMps && Number((bout.speedMps.low * 3.6).toFixed(1))
  const pains = Array.from({ length: 11 }, (_, pain) => option(String(pain), String(pain)))
  return modal(
    { door: 'session', title: 'Log a run', submit: 'Save', about: { athlete: chart.athlete, day } },
    [
      numberInput({
        name: 'bodyWeightPct',
        label: 'Body weight carried, in %',
        low: 1,
        high: 100,
        ...initial('initial', bout?.bodyWeightPct),
      }),
      numberInput({
        name: 'speedKmh',
        label: 'Speed, in km/h',
        low: 0,
        high: 36,
        decimal: true,
        ...initial('initial', kmh),
      }),
      numberInput({
        name: 'repeats',
        label: 'How many bouts of running',
        low: 0,
        high: 100,
        ...initial('initial', asked?.repeats),
      }),
      numberInput({
        name: 'minutes',
        label: 'Minutes in each bout',
        low: 0,
        high: 240,
        decimal: true,
        ...initial('initial', asked?.minutes),
      }),
      select({ name: 'painBefore', label: 'Pain before (0-10)' }, pains),
      select({ name: 'painDuring', label: 'Worst pain during (0-10)' }, pains),
      select({ name: 'painAfter', label: 'Pain after (0-10)' }, pains),
      ...(chart.episode?.tissue === 'joint' ? [soreness()] : []),
      numberInput({ name: 'rpe', label: 'How hard was it, 0 rest to 10 maximal', low: 0, high: 10 }),
      textInput({ name: 'note', label: 'Note', optional: true }),
    ],
  )
}

/** All running bouts of a dose as one, at the easiest reading: so many, of so many minutes each. */
function inOne(dose: Dose): { repeats: number; minutes: number } | undefined {
  const repeats = dose.bouts.reduce((sum, bout) => sum + (bout.gait === 'run' ? bout.repeats.low : 0), 0)
  const slowest = dose.bouts.reduce((sum, bout) => {
    if (bout.gait !== 'run') return sum
    const minutes = bout.minutes?.low ?? (bout.distanceM ?? 0) / (bout.speedMps?.low ?? 1) / 60
    return sum + bout.repeats.low * minutes
  }, 0)
  return repeats === 0 ? undefined : { repeats, minutes: Math.ceil((100 * slowest) / repeats) / 100 }
}

/** Asked for joints: the soreness rows decide the next rung. */
function soreness() {
  return select({ name: 'soreness', label: 'Soreness in the joint itself, not in muscles' }, [
    option('none', 'None'),
    option('warm-up-gone', 'In the warm-up, gone as it went on'),
    option('warm-up-stayed', 'In the warm-up, and it stayed'),
    option('went-and-came-back', 'Went away and came back'),
    option('after', 'More than an hour after'),
  ])
}

export function sessionFrom(form: Form, athlete: string, day: Day): unknown {
  const speedKmh = form.number('speedKmh')
  const pain = (name: string) => (form.choice(name) === undefined ? undefined : Number(form.choice(name)))
  const note = form.text('note')
  return {
    kind: 'session-done',
    athlete,
    day,
    bouts: [
      {
        gait: 'run',
        bodyWeightPct: form.number('bodyWeightPct'),
        speedMps: speedKmh === undefined ? undefined : speedKmh / 3.6,
        inclinePct: 0,
        minutes: form.number('minutes'),
        repeats: form.number('repeats'),
      },
    ],
    painBefore: pain('painBefore'),
    painDuring: pain('painDuring'),
    painAfter: pain('painAfter'),
    rpe: form.number('rpe'),
    ...(form.choice('soreness') === undefined ? {} : { soreness: form.choice('soreness') }),
    ...(note ? { note } : {}),
  }
}
