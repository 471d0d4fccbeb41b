import { expect, test } from 'vitest'
import * as steps from '../../src/science/steps.ts'
import { mpsFromMinPerMile, mpsFromMph } from '../../src/science/units.ts'

const run = (over = {}) => ({ gait: 'run' as const, speedMps: 3, bodyWeightPct: 100, ...over })

test('the running line is a band of ten each way [van-oeveren-wearables]', () => {
  const { low, high } = steps.cadenceSpm(run())
  expect(low).toBeCloseTo(158.056, 9)
  expect(high).toBeCloseTo(178.056, 9)
})

test('support slows the step and never quickens it', () => {
  for (let pct = 20; pct < 100; pct++) {
    const [lighter, heavier] = [
      steps.cadenceSpm(run({ bodyWeightPct: pct })),
      steps.cadenceSpm(run({ bodyWeightPct: pct + 1 })),
    ]
    expect(lighter.low).toBeLessThan(heavier.low)
    expect(lighter.high).toBeLessThan(heavier.high)
  }
})

test('the athlete’s own count at this dose beats every line, and needs no note', () => {
  const counted = run({ speedMps: 6, bodyWeightPct: 40, ownCadenceSpm: 171 })
  expect(steps.cadenceSpm(counted)).toEqual({ low: 171, high: 171 })
  expect(steps.cadenceNotes(counted)).toEqual([])
})

test('outside the measured speeds it is said, at the edge and just past it', () => {
  const count = (speedMps: number, gait: 'walk' | 'run') =>
    steps.cadenceNotes({ gait, speedMps, bodyWeightPct: 100 }).length
  expect([count(1.64, 'run'), count(1.63, 'run'), count(4.68, 'run'), count(4.69, 'run')]).toEqual([
    0, 1, 0, 1,
  ])
  expect([
    count(mpsFromMph(3), 'walk'),
    count(mpsFromMph(2.9), 'walk'),
    count(mpsFromMph(4), 'walk'),
    count(mpsFromMph(4.1), 'walk'),
  ]).toEqual([0, 1, 0, 1])
})

test('the walking equation is not used for running: at 6 min/mile it gives an absurd 200 and more [hoeger-2008]', () => {
  const inch = 2.54
  expect(steps.walkingStepsPerMile(6, 70 * inch, 'm') / 6).toBeGreaterThan(200)
  expect(steps.runningStepsPerMile(10, 70 * inch)).toBeCloseTo(1575, 9)
  expect(steps.walkingStepsPerMile(10, 70 * inch, 'm')).toBeCloseTo(1563, 9)
})

test('height tells the same running cadence within the band [hoeger-2008]', () => {
  const byHeight = steps.runningStepsPerMile(8.571, 178) / 8.571
  const { low, high } = steps.cadenceSpm(run({ speedMps: mpsFromMinPerMile(8.571) }))
  expect(byHeight).toBeGreaterThan(low)
  expect(byHeight).toBeLessThan(high)
})
