import fc from 'fast-check'
import { type Chart, readChart } from '../../src/chart/chart.ts'
import type { CheckIn } from '../../src/chart/check-in.ts'
import { State } from '../../src/chart/clearance.ts'
import { instantAt, plusDays } from '../../src/chart/day.ts'
import type { Entry } from '../../src/chart/entries.ts'
import { defaultsOf } from '../../src/chart/family.ts'
import type { Ladder, Tissue } from '../../src/chart/ladder.ts'
import type { Prescription } from '../../src/chart/prescription.ts'
import { prescribe } from '../../src/rules/prescription.ts'
import { library, team } from './life.ts'

/** Mostly what is usual, so that athletes get somewhere; sometimes anything. */
const mostly = <T>(usual: T, weight: number, anything: fc.Arbitrary<T>) =>
  fc.oneof({ weight, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: anything })
const pain = mostly(0, 20, fc.integer({ min: 0, max: 10 }))

/** What happens on one day: every number is a choice of the generator. */
const dayArb = fc.record({
  answers: fc.option(
    fc.record({
      worstPain: pain,
      morningPain: pain,
      swelling: mostly('no', 20, fc.constantFrom('yes', 'not sure')),
    }),
    { freq: 12, nil: undefined },
  ),
  /** 0 obeys the prescription; 1 does not run and says nothing; 2 runs whatever was said; 3 says it was not run. */
  does: mostly(0, 12, fc.constantFrom(1, 2, 3)),
  share: mostly(1, 12, fc.constantFrom(0.4, 1.5)),
  painDuring: pain,
  soreness: fc.constantFrom(
    'none',
    'none',
    'none',
    'none',
    'warm-up-gone',
    'warm-up-stayed',
    'after',
    undefined,
  ),
  grade: mostly<number | undefined>(undefined, 15, fc.constantFrom(0, 0.5, 1, 2, 3)),
  lifts: fc.boolean(),
  /** A therapist puts running on hold before the morning, or lifts such a hold in the evening. */
  hold: mostly<'on' | 'off' | undefined>(undefined, 12, fc.constantFrom('on', 'on', 'off')),
})

const ladders = library.ladders

export const historyArb = fc.record({
  ladder: fc.integer({ min: 0, max: ladders.length - 1 }),
  tissueOf: fc.nat(3),
  startRung: mostly(0, 2, fc.nat(9)),
  bodyWeightPct: mostly(100, 4, fc.integer({ min: 40, max: 99 })),
  speedMps: mostly(3.6, 4, fc.constantFrom(2.1, 2.3, 2.8)),
  runMinutes: mostly(60, 4, fc.constantFrom(5, 12, 30)),
  state: mostly<State>('ground running', 6, fc.constantFrom(...State.options)),
  clearedDays: mostly(60, 5, fc.integer({ min: 0, max: 20 })),
  surgeonPct: mostly<number | undefined>(undefined, 8, fc.constantFrom(55, 80)),
  notBefore: mostly<number | undefined>(undefined, 8, fc.constant(4)),
  replanOn: mostly<number | undefined>(undefined, 5, fc.constantFrom(6, 9)),
  propose: mostly(false, 6, fc.constant(true)),
  days: fc.array(dayArb, { minLength: 8, maxLength: 20, size: 'max' }),
})
type History = typeof historyArb extends fc.Arbitrary<infer T> ? T : never
type Did = History['days'][number]

export const firstDay = '2026-03-02'
const at = (day: string, time: string) => instantAt(day, time, 'UTC')

/** A prescription with the chart that it was written from. */
export type Decision = {
  readonly chart: Chart
  readonly checkIn: CheckIn
  readonly prescription: Prescription
}

/** Lives a history day by day; every prescription comes from the rules, everything else from the generator. */
export function lived(history: History): { entries: Entry[]; decisions: Decision[] } {
  const ladder = ladders[history.ladder] as Ladder
  const tissue = ladder.tissues[history.tissueOf % ladder.tissues.length] as Tissue
  const entries = opening(history, ladder, tissue)
  const decisions: Decision[] = []
  for (const [n, did] of history.days.entries()) {
    const day = plusDays(firstDay, n)
    if (history.replanOn === n) entries.push(plan(history, ladder, tissue, at(day, '06:00'), n))
    if (did.hold === 'on') entries.push(held(day, n))
    if (did.grade !== undefined && tissue === 'joint') entries.push(grade(day, did.grade, n))
    const prescription = did.answers ? answerDay(entries, decisions, day, did, tissue) : undefined
    if ((did.does === 0 && prescription?.what === 'run') || did.does === 2)
      entries.push(session(readChart('ada', entries), day, did, prescription))
    if (did.does === 3)
      entries.push({ ...signed(`run-skipped/${day}`, at(day, '20:00')), kind: 'run-skipped', day })
    if (did.hold === 'off')
      for (const { id } of readChart('ada', entries).holds)
        entries.push({
          ...signed(`hold-lifted/${id}/${n}`, at(day, '22:00'), 'iben'),
          kind: 'hold-lifted',
          hold: id,
          words: 'Seen.',
        })
    if (did.lifts)
      entries.push({
        ...signed(`hold-lifted/${n}`, at(day, '21:00')),
        kind: 'hold-lifted',
        hold: `hold/session/ada/${day}`,
        words: 'Seen.',
      })
  }
  return { entries, decisions }
}

function answerDay(entries: Entry[], decisions: Decision[], day: string, did: Did, tissue: Tissue) {
  const checkIn: CheckIn = {
    ...signed(`check-in/ada/${day}`, at(day, '07:00')),
    kind: 'check-in',
    day,
    ...(did.answers as Pick<CheckIn, 'worstPain' | 'morningPain' | 'swelling'>),
    signs: tissue === 'bone' ? { always: [], bone: [] } : { always: [] },
  }
  entries.push(checkIn)
  const chart = readChart('ada', entries)
  const prescription = prescribe(chart, checkIn, team, checkIn.recordedAt)
  decisions.push({ chart, checkIn, prescription })
  entries.push(prescription)
  return prescription
}

function signed(id: string, recordedAt: string, author = 'ada') {
  return { id, athlete: 'ada', author, recordedAt }
}

function opening(history: History, ladder: Ladder, tissue: Tissue): Entry[] {
  const start = at('2026-03-01', '12:00')
  return [
    {
      ...signed('enrolment/ada/1', start, 'iben'),
      kind: 'enrolment',
      timeZone: 'UTC',
      promptAt: '06:30',
      therapist: 'iben',
      coaches: [],
      consentToCoach: true,
      precautions: [],
    },
    {
      ...signed('episode/ada/1', start, 'iben'),
      kind: 'episode',
      diagnosis: 'any',
      tissue,
      site: '',
      side: 'left',
      onsetDay: '2026-01-05',
      ...(history.surgeonPct === undefined ? {} : { surgeonLimits: { bodyWeightPct: history.surgeonPct } }),
      ...(history.notBefore === undefined ? {} : { noRunBefore: plusDays(firstDay, history.notBefore) }),
    },
    plan(history, ladder, tissue, start, 0),
    {
      ...signed('clearance/ada/1', start, 'iben'),
      kind: 'clearance',
      state: history.state,
      until: plusDays(firstDay, history.clearedDays),
    },
  ]
}

function plan(history: History, ladder: Ladder, tissue: Tissue, now: string, n: number): Entry {
  const { bodyWeightPct, speedMps, runMinutes } = history
  return {
    ...signed(`plan-signed/ada/${n}`, now, 'iben'),
    kind: 'plan-signed',
    ladder,
    startRung: (history.startRung % ladder.rungs.length) + 1,
    days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
    ceiling: { bodyWeightPct, speedMps, runMinutes },
    settings: { ...defaultsOf(library.family(tissue)), stepUp: history.propose ? 'propose' : 'offer' },
  }
}

function held(day: string, n: number): Entry {
  return {
    ...signed(`hold/ada/${n}`, at(day, '06:05'), 'iben'),
    kind: 'hold',
    about: `hold/ada/${n}`,
    because: [{ finding: 'therapist', words: 'Wait for the scan.', source: 'therapist' }],
  }
}

function grade(day: string, value: number, n: number): Entry {
  return {
    ...signed(`measure/${n}`, at(day, '06:10'), 'iben'),
    kind: 'measure',
    measure: 'effusion-grade',
    day,
    value,
  }
}

function session(chart: Chart, day: string, did: Did, prescription: Prescription | undefined): Entry {
  const bout = prescription?.dose?.bouts.find((one) => one.gait === 'run')
  const speedMps = bout?.speedMps?.low ?? 2.5
  const minutes = bout?.minutes?.low ?? (bout?.distanceM ?? 900) / speedMps / 60
  return {
    ...signed(`session/ada/${day}`, at(day, '17:00')),
    kind: 'session-done',
    day,
    rung: prescription?.rung ?? chart.sessions.at(-1)?.rung ?? 1,
    ...(prescription ? { about: prescription.id } : {}),
    bouts: [
      {
        gait: 'run',
        bodyWeightPct: bout?.bodyWeightPct ?? 70,
        speedMps,
        inclinePct: 0,
        minutes: minutes * did.share,
        repeats: bout?.repeats.low ?? 1,
      },
    ],
    painBefore: 0,
    painDuring: did.painDuring,
    painAfter: 0,
    rpe: 3,
    ...(did.soreness === undefined ? {} : { soreness: did.soreness as 'none' }),
  }
}
