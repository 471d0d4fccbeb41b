import { expect, test } from 'vitest'
import type { Bout, Dose } from '../../src/chart/dose.ts'
import { doseCost } from '../../src/rules/dose-cost.ts'
import { cost } from '../../src/science/cost.ts'
import { isRefusal } from '../../src/science/refusal.ts'

const bout: Bout = {
  gait: 'run',
  bodyWeightPct: 65,
  speedMps: { low: 3, high: 3 },
  inclinePct: 0,
  repeats: { low: 1, high: 1 },
  minutes: { low: 12, high: 12 },
}
const dose: Dose = { on: 'lbpp-treadmill', warmUpMinutes: 5, coolDownMinutes: 5, bouts: [bout] }
const plainly = (speedMps: number, minutes: number) => {
  const found = cost({ gait: 'run', speedMps, gradePct: 0, bodyWeightPct: 65, minutes, trulyRunning: true })
  if (isRefusal(found)) throw new Error(found.words)
  return found
}

test('one bout at one speed costs what the science says of it', () => {
  const { peakForceBw, forceRatio, vo2MlKgMin, steps } = plainly(3, 12)
  expect(doseCost(dose, {})).toMatchObject({ peakForceBw, forceRatio, vo2MlKgMin, steps })
})

test('a range of speeds and repeats is spanned: from the slowest and shortest to the fastest and longest', () => {
  const wide = {
    ...bout,
    speedMps: { low: 2.5, high: 3.5 },
    repeats: { low: 4, high: 5 },
    minutes: { low: 1, high: 2 },
  }
  expect(doseCost({ ...dose, bouts: [wide] }, {})).toMatchObject({
    peakForceBw: { low: plainly(2.5, 4).peakForceBw.low, high: plainly(3.5, 10).peakForceBw.high },
    steps: { low: plainly(2.5, 4).steps?.low, high: plainly(3.5, 10).steps?.high },
  })
})

test('of several bouts the steps add up and the hardest step counts; walking adds nothing', () => {
  const walk: Bout = { ...bout, gait: 'walk', speedMps: { low: 1.3, high: 1.3 } }
  const harder: Bout = { ...bout, bodyWeightPct: 80 }
  const one = doseCost(dose, {})
  const both = doseCost({ ...dose, bouts: [bout, walk, harder] }, {})
  const last = doseCost({ ...dose, bouts: [harder] }, {})
  expect(both?.peakForceBw).toEqual(last?.peakForceBw)
  expect(both?.steps.low).toBeCloseTo((one?.steps.low ?? 0) + (last?.steps.low ?? 0), 9)
})

test('on the ground every step is at full weight, and nothing is said of a machine', () => {
  const ground = doseCost({ ...dose, on: 'ground', bouts: [{ ...bout, bodyWeightPct: 100 }] }, {})
  expect(ground?.forceRatio).toEqual({ low: 1, high: 1 })
  expect(ground?.asHardAsMps).toBeUndefined()
})

test('in the machine the same speed is never harder than on the ground', () => {
  expect(doseCost(dose, {})?.asHardAsMps?.high).toBeLessThan(3)
})

test('a pace that is left to the athlete has no honest cost, and neither has a session with one such bout', () => {
  const { speedMps: _, ...ownPace } = bout
  expect(doseCost({ ...dose, bouts: [ownPace] }, {})).toBeUndefined()
  expect(doseCost({ ...dose, bouts: [bout, ownPace] }, {})).toBeUndefined()
})
