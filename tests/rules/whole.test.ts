import { expect, test } from 'vitest'
import { wasWhole } from '../../src/rules/whole.ts'
import { athlete, type Case } from './life.ts'

const run = { gait: 'run', bodyWeightPct: 100, speedMps: 2.5, inclinePct: 0, minutes: 3, repeats: 2 } as const
const whole = (is: Case, bouts: readonly object[], prescribed = true) => {
  const ada = athlete(is)
  if (prescribed) ada.morning('2026-03-02')
  ada.run('2026-03-02', { bouts })
  const [session] = ada.chart().sessions
  return session && wasWhole(ada.chart(), session)
}
const minutes: Case = { tissue: 'muscle', ladder: 'walk-run-six-phases' }
const miles: Case = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill', startRung: 5 }

test('six minutes were asked: six are the whole, 95 % of them too, less is not, and walking is not running', () => {
  expect(whole(minutes, [run])).toBe(true)
  expect(whole(minutes, [{ ...run, minutes: 2.85 }])).toBe(true)
  expect(whole(minutes, [{ ...run, minutes: 2.84 }])).toBe(false)
  expect(whole(minutes, [{ ...run, gait: 'walk' }])).toBe(false)
  expect(
    whole(minutes, [
      { ...run, repeats: 1 },
      { ...run, repeats: 1 },
    ]),
  ).toBe(true)
  expect(whole(minutes, [run, { ...run, gait: 'walk', bodyWeightPct: 50, minutes: 5 }])).toBe(true)
})

test('two miles were asked: the distance counts, not the time', () => {
  const twoMiles = { ...run, repeats: 1, minutes: (2 * 1609.344) / 2.5 / 60 }
  expect(whole(miles, [twoMiles])).toBe(true)
  expect(whole(miles, [{ ...twoMiles, minutes: twoMiles.minutes * 0.951 }])).toBe(true)
  expect(whole(miles, [{ ...twoMiles, minutes: twoMiles.minutes * 0.94 }])).toBe(false)
  expect(whole(miles, [{ ...twoMiles, speedMps: 2 }])).toBe(false)
})

test('one bout with less weight than was asked, and it was not the whole', () => {
  const tibia: Case = {
    tissue: 'bone',
    ladder: 'tibial-stress-reaction-lbpp',
    state: 'unloaded running',
    startRung: 3,
  }
  const bout = { ...run, bodyWeightPct: 70, minutes: 1, repeats: 5 }
  expect(whole(tibia, [bout])).toBe(true)
  expect(whole(tibia, [{ ...bout, bodyWeightPct: 75 }])).toBe(true)
  expect(whole(tibia, [bout, { ...bout, bodyWeightPct: 60 }])).toBe(false)
})

test('without a prescription the rung of the log is what was asked', () => {
  expect(whole(minutes, [run], false)).toBe(true)
  expect(whole(minutes, [{ ...run, minutes: 1 }], false)).toBe(false)
})
