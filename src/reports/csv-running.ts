import type { Chart } from '../chart/chart.ts'
import { runMinutes } from '../chart/dose.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { SessionDone } from '../chart/session.ts'
import { type Cell, type Column, table } from './csv-table.ts'
import { runOf } from './dose-words.ts'

const kmhPerMps = 3.6
const toTenth = (value: number) => Math.round(value * 10) / 10

const day = {
  name: 'day',
  unit: 'date',
  about: "The athlete's own calendar day.",
  of: (row: { day: string }) => row.day,
}

type PrescribedBout = NonNullable<Prescription['dose']>['bouts'][number]

const ofBouts =
  (choose: (...values: number[]) => number, pick: (bout: PrescribedBout) => number | undefined) =>
  ({ dose }: Prescription): Cell => {
    const values = dose?.bouts.flatMap((bout) => pick(bout) ?? []) ?? []
    return values.length === 0 ? undefined : choose(...values)
  }

export const prescriptionTable = table<Prescription>(
  'prescriptions',
  'What was prescribed for a day; the last one written for a day was in force.',
  (chart: Chart) => chart.entries.filter((e): e is EntryOf<'prescription'> => e.kind === 'prescription'),
  (row) => row,
  [
    day,
    { name: 'what', unit: '', about: 'run, exercise (without running) or rest.', of: (row) => row.what },
    { name: 'move', unit: '', about: 'Step on the ladder that led to it.', of: (row) => row.move },
    { name: 'rung', unit: 'from 1', about: 'Rung of the signed ladder.', of: (row) => row.rung },
    { name: 'ladder', unit: '', about: 'Ladder and version.', of: (row) => row.ladder },
    {
      name: 'body_weight_low_pct',
      unit: '% of body weight carried',
      about: 'Least weight carried in a bout; what the machine supports is 100 minus this.',
      of: ofBouts(Math.min, (bout) => bout.bodyWeightPct),
    },
    {
      name: 'body_weight_high_pct',
      unit: '% of body weight carried',
      about: 'Most weight carried in a bout.',
      of: ofBouts(Math.max, (bout) => bout.bodyWeightPct),
    },
    {
      name: 'speed_low_kmh',
      unit: 'km/h',
      about: 'Lowest speed of a bout; empty for own pace.',
      of: ofBouts(Math.min, (bout) => bout.speedMps && toTenth(bout.speedMps.low * kmhPerMps)),
    },
    {
      name: 'speed_high_kmh',
      unit: 'km/h',
      about: 'Highest speed of a bout; empty for own pace.',
      of: ofBouts(Math.max, (bout) => bout.speedMps && toTenth(bout.speedMps.high * kmhPerMps)),
    },
    {
      name: 'run_low_minutes',
      unit: 'min',
      about: 'Minutes of running, shortest reading.',
      of: (row) => row.dose && toTenth(runMinutes(row.dose).low),
    },
    {
      name: 'run_high_minutes',
      unit: 'min',
      about: 'Minutes of running, longest reading.',
      of: (row) => row.dose && toTenth(runMinutes(row.dose).high),
    },
    {
      name: 'because',
      unit: '',
      about: 'Why, in words.',
      of: (row) => row.because.map((reason) => reason.words).join(' '),
    },
    {
      name: 'sources',
      unit: '',
      about: 'Source keys of the rules that decided.',
      of: (row) => row.because.map((reason) => reason.source).join(' '),
    },
  ],
)

const pain = (name: 'painBefore' | 'painDuring' | 'painAfter', when: string): Column<SessionDone> => ({
  name: `pain_${when}`,
  unit: '0 to 10',
  about: `Pain at the injured place ${when} the run.`,
  of: (row) => row[name],
})

const sessionsOf = (chart: Chart) =>
  chart.entries.filter((e): e is EntryOf<'session-done'> => e.kind === 'session-done')

export const sessionTable = table<SessionDone>(
  'sessions',
  'What was really run, one row a session.',
  sessionsOf,
  (row) => row,
  [
    day,
    {
      name: 'prescription',
      unit: '',
      about: 'Entry that it followed; empty when none.',
      of: (row) => row.about,
    },
    { name: 'rung', unit: 'from 1', about: 'Rung of the signed ladder.', of: (row) => row.rung },
    {
      name: 'run_minutes',
      unit: 'min',
      about: 'Minutes of running in all.',
      of: (row) => toTenth(runOf(row).minutes),
    },
    {
      name: 'body_weight_high_pct',
      unit: '% of body weight carried',
      about: 'Most weight carried while running; as weighed, where staff weighed.',
      of: (row) => runOf(row).bodyWeightPct || undefined,
    },
    {
      name: 'speed_high_kmh',
      unit: 'km/h',
      about: 'Highest speed while running.',
      of: (row) => toTenth(runOf(row).speedMps * kmhPerMps) || undefined,
    },
    pain('painBefore', 'before'),
    pain('painDuring', 'during'),
    pain('painAfter', 'after'),
    {
      name: 'rpe',
      unit: '0 to 10',
      about: 'Effort of the session, category-ratio scale.',
      of: (row) => row.rpe,
    },
    { name: 'note', unit: '', about: 'Words of whoever logged it.', of: (row) => row.note },
  ],
)

type Done = {
  readonly session: SessionDone
  readonly number: number
  readonly bout: SessionDone['bouts'][number]
}

export const boutTable = table<Done>(
  'bouts',
  'The stretches of each session, one row a stretch.',
  (chart) =>
    sessionsOf(chart).flatMap((session) =>
      session.bouts.map((bout, i) => ({ session, number: i + 1, bout })),
    ),
  (row) => row.session,
  [
    { ...day, of: (row) => row.session.day },
    { name: 'bout', unit: 'from 1', about: 'Place in the session.', of: (row) => row.number },
    { name: 'gait', unit: '', about: 'walk or run.', of: (row) => row.bout.gait },
    {
      name: 'body_weight_pct',
      unit: '% of body weight carried',
      about: 'As set on the machine.',
      of: (row) => row.bout.bodyWeightPct,
    },
    {
      name: 'measured_body_weight_pct',
      unit: '% of body weight carried',
      about: 'As weighed in the machine, where staff did.',
      of: (row) => row.bout.measuredBodyWeightPct,
    },
    { name: 'speed_kmh', unit: 'km/h', about: 'Speed.', of: (row) => toTenth(row.bout.speedMps * kmhPerMps) },
    { name: 'incline_pct', unit: '%', about: 'Incline.', of: (row) => row.bout.inclinePct },
    { name: 'minutes', unit: 'min', about: 'Minutes of one repeat.', of: (row) => row.bout.minutes },
    { name: 'repeats', unit: '', about: 'How many times.', of: (row) => row.bout.repeats },
  ],
)
