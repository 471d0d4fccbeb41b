import fc from 'fast-check'
import { expect, test } from 'vitest'
import * as force from '../../src/science/force.ts'
import { springMassPeakBw } from '../../src/science/spring-mass.ts'
import { runningCadenceSpm } from '../../src/science/steps.ts'

const speed = fc.double({ min: 1.34, max: 6.7, noNaN: true })

test('faster never means less force, walking and running, for women, men and unknown', () => {
  fc.assert(
    fc.property(
      speed,
      speed,
      fc.constantFrom('walk' as const, 'run' as const),
      fc.constantFrom('f' as const, 'm' as const, undefined),
      (a, b, gait, sex) => {
        const [slow, fast] = [
          force.peakForceBw(gait, Math.min(a, b), sex),
          force.peakForceBw(gait, Math.max(a, b), sex),
        ]
        expect(fast.low).toBeGreaterThanOrEqual(slow.low)
        expect(fast.high).toBeGreaterThanOrEqual(slow.high)
        expect(slow.low).toBeLessThanOrEqual(slow.high)
      },
    ),
  )
})

test('unknown sex is the mean of both lines [weyand-2005]', () => {
  const mean = (force.stanceAverageBw(3.5, 'm') + force.stanceAverageBw(3.5, 'f')) / 2
  expect(force.stanceAverageBw(3.5)).toBeCloseTo(mean, 12)
})

test('the half-sine peak and the spring-mass estimate bracket the force, the spring-mass one lower [morin-2005]', () => {
  const { low, high } = force.peakForceBw('run', 3.13)
  expect(high).toBeCloseTo((Math.PI / 2) * force.stanceAverageBw(3.13), 12)
  // A contact of 0.29 s at this cadence is what the published contact times give near 11 km/h [van-oeveren-2021].
  const step = 60 / runningCadenceSpm(3.13)
  expect(low).toBeCloseTo(springMassPeakBw(step - 0.291, 0.291), 1)
  expect((high - low) / high).toBeLessThan(0.25)
})

test('the running peak falls a little less than the carried weight, as its steps get longer [stockland-2019]', () => {
  const { low, high } = force.forceRatio('run', { bodyWeightPct: 65, measuredBodyWeightPct: 65 })
  expect(low).toBe(0.65)
  expect(high).toBeCloseTo(0.65 / 0.965 ** 3.5, 12)
})

test('at a known full weight the ratio is 1; at a setting of 100 % it may be less [set-actual-2015]', () => {
  expect(force.forceRatio('run', { bodyWeightPct: 100, measuredBodyWeightPct: 100 })).toEqual({
    low: 1,
    high: 1,
  })
  const { low, high } = force.forceRatio('run', { bodyWeightPct: 100 })
  expect(low).toBeCloseTo(0.9194, 4)
  expect(high).toBe(1)
})

test('the active peak follows weight: fourfold less weight, about threefold less force and more [chang-2000]', () => {
  const { low, high } = force.forceRatio('run', { bodyWeightPct: 25, measuredBodyWeightPct: 25 })
  expect(1 / high).toBeGreaterThan(2.9)
  expect(1 / low).toBe(4)
})

test('shock at the shin is not scaled by body weight at any setting, and the words say so [moran-2017]', () => {
  for (const pct of [20, 60, 80, 100]) expect(force.tibialShockRatio(pct)).toBe(1)
  expect(force.shockWords).toMatch(/less weight is not less shock/i)
})

test('forces outside the measured speeds are said to be extrapolated', () => {
  const kinds = (gait: 'walk' | 'run', mps: number) => force.forceNotes(gait, mps).map((note) => note.kind)
  expect(kinds('run', 2.22)).toEqual([])
  expect(kinds('run', 2.21)).toEqual(['extrapolated'])
  expect(kinds('walk', 1.5)).toEqual([])
  expect(kinds('walk', 1.49)).toEqual(['extrapolated'])
})
