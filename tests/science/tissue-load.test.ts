import { describe, expect, test } from 'vitest'
import { peakForceBw } from '../../src/science/force.ts'
import { isRefusal } from '../../src/science/refusal.ts'
import { runningCadenceSpm, stepsPerKm } from '../../src/science/steps.ts'
import { damagePerStep, type Tissue, tendonExponent, tissueLoad } from '../../src/science/tissue-load.ts'

const reference = { steps: 2000, peakForceBw: 2.4 }
const of = (bout: typeof reference, tissue: Tissue) => {
  const load = tissueLoad(bout, reference, tissue)
  if (isRefusal(load)) throw new Error(load.words)
  return load
}

describe('the same bout against itself', () => {
  test.each(['bone', 'cartilage', 'meniscus', 'tendon'] as const)(
    '%s: 1 by exponent alone, and a band around 1 by the setting',
    (tissue) => {
      const load = of(reference, tissue)
      expect(load.byExponent).toEqual({ low: 1, high: 1 })
      expect(load.bySetting.low).toBeLessThan(1)
      expect(load.bySetting.high).toBeGreaterThan(1)
      expect(load.relative.low).toBeLessThanOrEqual(load.bySetting.low)
      expect(load.relative.high).toBeGreaterThanOrEqual(load.bySetting.high)
    },
  )
})

test('remembered exponents are said to be remembered; tendon has none to remember [schechtman-1997]', () => {
  const kinds = (tissue: Tissue) => of(reference, tissue).notes.map((note) => note.kind)
  expect(kinds('bone')).toEqual(['remembered'])
  expect(kinds('cartilage')).toEqual(['remembered'])
  expect(kinds('meniscus')).toEqual(['extrapolated'])
  expect(kinds('tendon')).toEqual(['extrapolated'])
  expect(tendonExponent(20)).toBeCloseTo(3.11, 2)
  expect(tendonExponent(60)).toBeCloseTo(9.33, 2)
})

test('a 5 % error of the setting alone moves bone load by a third and more: only ever a band', () => {
  const { bySetting } = of(reference, 'bone')
  expect(bySetting.high - bySetting.low).toBeGreaterThan(0.6)
})

test('half the force is far less than half the load, half the steps exactly half', () => {
  expect(of({ ...reference, peakForceBw: 1.2 }, 'bone').relative.high).toBeLessThan(0.06)
  expect(of({ ...reference, steps: 1000 }, 'bone').byExponent).toEqual({ low: 0.5, high: 0.5 })
})

test('an exponent set by the clinic is used as given', () => {
  const load = tissueLoad({ ...reference, peakForceBw: 4.8 }, reference, 'bone', { low: 2, high: 3 })
  expect(isRefusal(load) ? null : load.byExponent).toEqual({ low: 4, high: 8 })
})

test('nothing can be compared with a bout without steps', () => {
  expect(isRefusal(tissueLoad(reference, { steps: 0, peakForceBw: 2 }, 'bone'))).toBe(true)
})

test('a shorter stride wins though it takes more steps: 0.554 of the damage, same sign as the model of stress fracture [edwards-2009]', () => {
  expect(damagePerStep(0.9, 6.6) / 0.9).toBeLessThan(1)
})

test('per kilometre the plain load falls with speed, the weighted one does not [firminger-2020]', () => {
  // By momentum the impulse of a kilometre is body weight times the time it takes.
  const plain = (mps: number) => 1000 / mps
  const weighted = (mps: number) =>
    stepsPerKm(runningCadenceSpm(mps), mps) * peakForceBw('run', mps).high ** 7
  expect(plain(4)).toBeLessThan(plain(3))
  expect(weighted(4)).toBeGreaterThan(weighted(3))
})

test('more distance is more damage, in proportion [edwards-2009]', () => {
  expect(of({ ...reference, steps: (2000 * 7) / 3 }, 'bone').byExponent.low).toBeCloseTo(7 / 3, 12)
})
