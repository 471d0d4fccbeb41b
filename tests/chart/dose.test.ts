import { describe, expect, test } from 'vitest'
import { Bout, type Dose, metresOf, runMinutes } from '../../src/chart/dose.ts'

const base = { gait: 'run' as const, bodyWeightPct: 70, inclinePct: 0, repeats: { low: 4, high: 5 } }
const dose = (...bouts: Bout[]): Dose => ({ on: 'treadmill', warmUpMinutes: 5, bouts, coolDownMinutes: 5 })

describe('minutes of running', () => {
  test('from the shortest to the longest reading; walking is not counted', () => {
    const walk: Bout = { ...base, gait: 'walk', minutes: { low: 9, high: 9 } }
    expect(runMinutes(dose({ ...base, minutes: { low: 1, high: 3 } }, walk))).toEqual({ low: 4, high: 15 })
  })
  test('a distance takes as long as its speed says; without a speed it is not known', () => {
    const far: Bout = { ...base, repeats: { low: 1, high: 1 }, distanceM: 600 }
    expect(runMinutes(dose({ ...far, speedMps: { low: 2, high: 4 } }))).toEqual({ low: 2.5, high: 5 })
    expect(runMinutes(dose(far))).toEqual({ low: 0, high: 0 })
  })
  test('jogging between faster bouts is running; walking between is not', () => {
    const between = (gait: 'run' | 'walk') => ({
      ...base,
      minutes: { low: 1, high: 1 },
      recovery: { gait, minutes: 2 },
    })
    expect(runMinutes(dose(between('run')))).toEqual({ low: 10, high: 13 })
    expect(runMinutes(dose(between('walk')))).toEqual({ low: 4, high: 5 })
    const metres: Bout = {
      ...base,
      speedMps: { low: 2, high: 2 },
      distanceM: 120,
      recovery: { gait: 'run', distanceM: 240 },
    }
    expect(runMinutes(dose(metres))).toEqual({ low: 10, high: 13 })
  })
})

test('metres of each gait: recoveries lie between the repeats, one fewer than they are', () => {
  const far: Bout = { ...base, distanceM: 100, recovery: { gait: 'walk', distanceM: 50 } }
  expect(metresOf(dose(far), 'run')).toBe(400)
  expect(metresOf(dose(far), 'walk')).toBe(150)
  expect(metresOf(dose({ ...base, minutes: { low: 1, high: 1 } }), 'run')).toBe(0)
})

test('a bout is long in minutes or in metres, never in both or neither', () => {
  expect(Bout.safeParse({ ...base, minutes: { low: 1, high: 1 } }).success).toBe(true)
  expect(Bout.safeParse({ ...base, minutes: { low: 1, high: 1 }, distanceM: 100 }).success).toBe(false)
  expect(Bout.safeParse(base).success).toBe(false)
})
