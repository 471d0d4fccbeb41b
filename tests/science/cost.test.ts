import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Bout, Runner } from '../../src/science/bout.ts'
import { type Amount, type Cost, cost } from '../../src/science/cost.ts'
import { isRefusal } from '../../src/science/refusal.ts'
import { mpsFromMph } from '../../src/science/units.ts'

const rehabRun: Bout = { gait: 'run', speedMps: mpsFromMph(7), gradePct: 0, bodyWeightPct: 65, minutes: 12 }
const of = (dose: Partial<Bout>, runner: Runner = {}): Cost => {
  const answer = cost({ ...rehabRun, ...dose }, runner)
  if (isRefusal(answer)) throw new Error(answer.words)
  return answer
}
const refusalOf = (dose: Partial<Bout>, runner: Runner = {}) => {
  const answer = cost({ ...rehabRun, ...dose }, runner)
  return isRefusal(answer) ? answer.refused : 'answered'
}
const ends = (figure: Amount | null): { low: number; high: number } => {
  if (figure === null) throw new Error('no figure')
  return typeof figure === 'number' ? { low: figure, high: figure } : figure
}
const bodyWeight = fc.integer({ min: 20, max: 100 })
const dose = fc.record({
  gait: fc.constant('run' as const),
  speedMps: fc.double({ min: 2.24, max: 6.7, noNaN: true }),
  gradePct: fc.double({ min: 0, max: 15, noNaN: true }),
  minutes: fc.integer({ min: 1, max: 60 }),
})
const walk = fc.record({
  gait: fc.constant('walk' as const),
  speedMps: fc.double({ min: 0.84, max: 1.66, noNaN: true }),
  gradePct: fc.double({ min: 0, max: 15, noNaN: true }),
  minutes: fc.integer({ min: 1, max: 60 }),
})

test('65 % at 7 mph is an ordinary session: everything is computed and nothing warned of [common-practice]', () => {
  const session = of({}, { massKg: 70, heightCm: 178, sex: 'f' })
  expect(session.notes).toEqual([])
  expect(ends(session.vo2MlKgMin).low).toBeCloseTo(26.6, 1)
  expect(ends(session.vo2MlKgMin).high).toBeCloseTo(31.15, 1)
  expect(session.distanceM).toBeCloseTo(2253, 0)
  expect(session.bodyWeightKm).toBeCloseTo(1.4645, 3)
})

test.each([walk, dose])(
  'less weight never raises any force or metabolic figure at the same speed, at either edge, set or measured',
  (doses) => {
    const figures = [
      'vo2MlKgMin',
      'netVo2MlKgMin',
      'mets',
      'kcalPerMin',
      'netKcalPerMin',
      'peakForceBw',
      'forceRatio',
      'bodyWeightKm',
    ] as const
    fc.assert(
      fc.property(doses, bodyWeight, bodyWeight, fc.boolean(), (bout, a, b, measured) => {
        const at = (bodyWeightPct: number) =>
          of(
            { ...bout, bodyWeightPct, ...(measured ? { measuredBodyWeightPct: bodyWeightPct } : {}) },
            { massKg: 70 },
          )
        const [less, more] = [at(Math.min(a, b)), at(Math.max(a, b))]
        for (const figure of figures) {
          expect(ends(less[figure]).low, figure).toBeLessThanOrEqual(ends(more[figure]).low + 1e-9)
          expect(ends(less[figure]).high, figure).toBeLessThanOrEqual(ends(more[figure]).high + 1e-9)
        }
      }),
      { numRuns: 500 },
    )
  },
)

test('a lower setting never raises a figure when the same athlete was weighed lighter too', () => {
  fc.assert(
    fc.property(
      dose,
      bodyWeight,
      bodyWeight,
      fc.double({ min: 10, max: 99, noNaN: true }),
      (bout, a, b, weighed) => {
        const lighter = of({ ...bout, bodyWeightPct: Math.min(a, b), measuredBodyWeightPct: weighed })
        const heavier = of({ ...bout, bodyWeightPct: Math.max(a, b), measuredBodyWeightPct: weighed + 1 })
        expect(ends(lighter.vo2MlKgMin).high).toBeLessThanOrEqual(ends(heavier.vo2MlKgMin).high + 1e-9)
        expect(lighter.peakForceBw.high).toBeLessThanOrEqual(heavier.peakForceBw.high + 1e-9)
      },
    ),
  )
})

test('faster never costs less, and never means less force', () => {
  fc.assert(
    fc.property(dose, dose, bodyWeight, (a, b, bodyWeightPct) => {
      const [slow, fast] = a.speedMps < b.speedMps ? [a, b] : [b, a]
      const [less, more] = [
        of({ ...slow, gradePct: a.gradePct, bodyWeightPct }),
        of({ ...fast, gradePct: a.gradePct, bodyWeightPct }),
      ]
      expect(ends(less.vo2MlKgMin).low).toBeLessThanOrEqual(ends(more.vo2MlKgMin).low + 1e-9)
      expect(ends(less.vo2MlKgMin).high).toBeLessThanOrEqual(ends(more.vo2MlKgMin).high + 1e-9)
      expect(less.peakForceBw.high).toBeLessThanOrEqual(more.peakForceBw.high + 1e-9)
    }),
  )
})

describe('a plain number at full weight, a range below it', () => {
  test('the oxygen figures', () => {
    expect(typeof of({ bodyWeightPct: 100 }).vo2MlKgMin).toBe('number')
    expect(typeof of({ bodyWeightPct: 100 }).mets).toBe('number')
    expect(of({ bodyWeightPct: 99 }).vo2MlKgMin).toEqual({
      low: expect.any(Number),
      high: expect.any(Number),
    })
    expect(of({ bodyWeightPct: 99 }).netVo2MlKgMin).toEqual({
      low: expect.any(Number),
      high: expect.any(Number),
    })
  })
  test('weighed at 93 % with the machine at 100 % is not full weight', () => {
    expect(typeof of({ bodyWeightPct: 100, measuredBodyWeightPct: 93 }).vo2MlKgMin).toBe('object')
  })
})

test('the machine at 100 % is cautioned about, the ground is not [set-actual-2015, gojanovic-2012]', () => {
  expect(of({ bodyWeightPct: 100 }).notes.map((note) => note.kind)).toEqual(['caution'])
  expect(of({ bodyWeightPct: 100, measuredBodyWeightPct: 100 }).notes).toEqual([])
})

test('8 mph with 50 kg is the published worked example, gross and net [acsm-worked-b]', () => {
  const worked = of({ speedMps: mpsFromMph(8), metresPerMinute: 214.4, bodyWeightPct: 100 }, { massKg: 50 })
  expect(worked.vo2MlKgMin).toBeCloseTo(46.38, 2)
  expect(worked.netVo2MlKgMin).toBeCloseTo(42.88, 2)
  expect(worked.netKcalPerMin).toBeCloseTo(10.72, 2)
  expect(worked.kcalPerMin).toBeCloseTo(11.595, 3)
})

test('what cannot be known is null, never 0: no minutes, no mass', () => {
  const bare = of({ minutes: undefined })
  expect([bare.steps, bare.distanceM, bare.bodyWeightKm, bare.kcalPerMin, bare.netKcalPerMin]).toEqual([
    null,
    null,
    null,
    null,
    null,
  ])
})

test('steps are cadence times minutes, and an own count is taken as it is', () => {
  const counted = of({}, { ownCadenceSpm: 170 })
  expect(counted.steps).toEqual({ low: 2040, high: 2040 })
})

describe('refusals, at the edge and just past it', () => {
  test.each([
    [{ bodyWeightPct: 20 }, 'answered'],
    [{ bodyWeightPct: 19 }, 'out-of-range'],
    [{ bodyWeightPct: 101 }, 'out-of-range'],
    [{ bodyWeightPct: 65.5 }, 'out-of-range'],
    [{ measuredBodyWeightPct: 101 }, 'out-of-range'],
    [{ gradePct: 15 }, 'answered'],
    [{ gradePct: 15.1 }, 'out-of-range'],
    [{ gradePct: -1 }, 'out-of-range'],
    [{ speedMps: 6.71 }, 'out-of-range'],
    [{ speedMps: Number.NaN }, 'out-of-range'],
    [{ speedMps: 2 }, 'say-more'],
    [{ speedMps: 2, trulyRunning: true }, 'answered'],
    [{ speedMps: 1.2, trulyRunning: true }, 'out-of-range'],
    [{ minutes: 0 }, 'out-of-range'],
  ] as const)('%o: %s', (bout, kind) => {
    expect(refusalOf(bout)).toBe(kind)
  })
  test('a runner of 300 kg, 30 cm or 20 steps a minute is a slip of the pen', () => {
    expect(refusalOf({}, { massKg: 300 })).toBe('out-of-range')
    expect(refusalOf({}, { heightCm: 30 })).toBe('out-of-range')
    expect(refusalOf({}, { ownCadenceSpm: 20 })).toBe('out-of-range')
  })
})
