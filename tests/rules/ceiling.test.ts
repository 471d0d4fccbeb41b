import { describe, expect, test } from 'vitest'
import type { Clinic } from '../../src/chart/clinic.ts'
import type { Bout, Dose } from '../../src/chart/dose.ts'
import { capped, ceilingOn, lowerOf } from '../../src/rules/ceiling.ts'
import { athlete } from './life.ts'

const treadmill: Clinic['treadmill'] = {
  bodyWeightPct: { low: 20, high: 100, step: 1 },
  speedMps: { low: 0, high: 5 },
  inclinePct: { low: 0, high: 15 },
}
const ceiling = { bodyWeightPct: 80, speedMps: 3, runMinutes: 20 }
const bout: Bout = {
  gait: 'run',
  bodyWeightPct: 70,
  speedMps: { low: 2, high: 3 },
  inclinePct: 0,
  repeats: { low: 4, high: 5 },
  minutes: { low: 2, high: 4 },
}
const dose = (change: Partial<Bout> = {}, on: Dose['on'] = 'lbpp-treadmill'): Dose => ({
  on,
  warmUpMinutes: 5,
  bouts: [{ ...bout, ...change }],
  coolDownMinutes: 5,
})
const one = (change: Partial<Bout>, mill = treadmill, on: Dose['on'] = 'lbpp-treadmill') =>
  capped(dose(change, on), ceiling, mill)?.bouts[0]

describe('a dose is cut down to what was signed, and never raised', () => {
  test('what fits is left as it is', () => {
    expect(capped(dose(), ceiling, treadmill)).toEqual(dose())
  })
  test('body weight at the ceiling is run, one percent above it is out of reach', () => {
    expect(one({ bodyWeightPct: 80 })?.bodyWeightPct).toBe(80)
    expect(one({ bodyWeightPct: 81 })).toBeUndefined()
  })
  test('the high end of the speed comes down to the ceiling; a slowest speed above it is out of reach', () => {
    expect(one({ speedMps: { low: 3, high: 4 } })?.speedMps).toEqual({ low: 3, high: 3 })
    expect(one({ speedMps: { low: 3.01, high: 4 } })).toBeUndefined()
  })
  test('minutes come down in half minutes until the whole fits', () => {
    const cut = capped(
      dose({ repeats: { low: 5, high: 5 }, minutes: { low: 2, high: 5 } }),
      ceiling,
      treadmill,
    )
    expect(cut?.bouts[0]?.minutes).toEqual({ low: 2, high: 4 })
    const half = capped(
      dose({ repeats: { low: 4, high: 4 }, minutes: { low: 3, high: 6 } }),
      { ...ceiling, runMinutes: 18 },
      treadmill,
    )
    expect(half?.bouts[0]?.minutes).toEqual({ low: 3, high: 4.5 })
    expect(
      capped(dose({ repeats: { low: 5, high: 5 }, minutes: { low: 5, high: 5 } }), ceiling, treadmill),
    ).toBeUndefined()
    expect(one({ repeats: { low: 5, high: 5 }, minutes: { low: 4, high: 4 } })?.minutes).toEqual({
      low: 4,
      high: 4,
    })
  })
  test('fewer repeats where they vary, and walking is not shortened', () => {
    const walk: Bout = { ...bout, gait: 'walk', repeats: { low: 1, high: 1 }, minutes: { low: 5, high: 10 } }
    const many = { ...bout, repeats: { low: 2, high: 10 }, minutes: { low: 3, high: 3 } }
    const cut = capped({ ...dose(), bouts: [walk, many] }, ceiling, treadmill)
    expect(cut?.bouts[0]).toMatchObject({ repeats: { low: 1, high: 1 }, minutes: { low: 5, high: 10 } })
    expect(cut?.bouts[1]).toMatchObject({ repeats: { low: 2, high: 6 }, minutes: { low: 3, high: 3 } })
  })
  test('a ladder without speeds is run slowly, and never above the ceiling [rambaud-2018-summary]', () => {
    const free: Bout = {
      gait: 'run',
      bodyWeightPct: 70,
      inclinePct: 0,
      repeats: { low: 1, high: 1 },
      distanceM: 2000,
    }
    const slow = capped({ ...dose(), bouts: [free] }, ceiling, treadmill)?.bouts[0]?.speedMps
    expect(slow?.low).toBeCloseTo(8 / 3.6)
    expect(slow?.high).toBeCloseTo(10 / 3.6)
    const tight = capped({ ...dose(), bouts: [free] }, { ...ceiling, speedMps: 2 }, treadmill)?.bouts[0]
      ?.speedMps
    expect(tight).toEqual({ low: 2, high: 2 })
    expect(capped({ ...dose(), bouts: [free] }, { ...ceiling, runMinutes: 14.9 }, treadmill)).toBeUndefined()
    expect(capped({ ...dose(), bouts: [free] }, { ...ceiling, runMinutes: 15 }, treadmill)).toBeDefined()
  })
  test('walking keeps its own pace', () => {
    const walk: Bout = {
      gait: 'walk',
      bodyWeightPct: 70,
      inclinePct: 0,
      repeats: { low: 1, high: 1 },
      distanceM: 160,
    }
    expect(capped({ ...dose(), bouts: [walk] }, ceiling, treadmill)?.bouts[0]).toEqual(walk)
  })
})

describe('the treadmill is asked for nothing that it cannot be set to', () => {
  test('below its lowest body weight, or up a slope it does not have: out of reach', () => {
    expect(one({ bodyWeightPct: 19 })).toBeUndefined()
    expect(one({ bodyWeightPct: 20 })?.bodyWeightPct).toBe(20)
    expect(one({ inclinePct: -1 })).toBeUndefined()
    expect(one({ inclinePct: 20 })?.inclinePct).toBe(15)
  })
  test('between two steps it is set to the lower', () => {
    const coarse = {
      bodyWeightPct: { low: 20, high: 100, step: 5 },
      speedMps: { low: 0, high: 5, step: 0.5 },
      inclinePct: { low: 0, high: 15, step: 0.5 },
    }
    expect(one({ bodyWeightPct: 69 }, coarse)?.bodyWeightPct).toBe(65)
    expect(one({ bodyWeightPct: 70 }, coarse)?.bodyWeightPct).toBe(70)
    expect(one({ speedMps: { low: 2.2, high: 2.9 } }, coarse)?.speedMps).toEqual({ low: 2, high: 2.5 })
    expect(one({ inclinePct: 1.7 }, coarse)?.inclinePct).toBe(1.5)
    expect(
      one({ speedMps: { low: 0.6, high: 0.6 } }, { ...coarse, speedMps: { low: 0, high: 5, step: 0.1 } })
        ?.speedMps?.high,
    ).toBeCloseTo(0.6)
  })
  test('faster than the belt goes is out of reach; the high end comes down to the belt', () => {
    const slowBelt = { ...treadmill, speedMps: { low: 0, high: 2.5 } }
    expect(one({ speedMps: { low: 2, high: 3 } }, slowBelt)?.speedMps).toEqual({ low: 2, high: 2.5 })
    expect(one({ speedMps: { low: 2.6, high: 3 } }, slowBelt)).toBeUndefined()
  })
  test('slower than the belt goes is out of reach, and its highest speed is not', () => {
    const fastBelt = { ...treadmill, speedMps: { low: 1, high: 5 } }
    expect(one({ speedMps: { low: 0.5, high: 0.9 } }, fastBelt)).toBeUndefined()
    expect(one({ speedMps: { low: 0.5, high: 1 } }, fastBelt)?.speedMps).toEqual({ low: 1, high: 1 })
    const slowBelt = { ...treadmill, speedMps: { low: 0, high: 2 } }
    expect(one({ speedMps: { low: 2, high: 3 } }, slowBelt)?.speedMps).toEqual({ low: 2, high: 2 })
  })
  test('the ground has no settings', () => {
    expect(
      one({ inclinePct: 20 }, { ...treadmill, speedMps: { low: 0, high: 1 } }, 'ground')?.inclinePct,
    ).toBe(20)
  })
})

describe('the lowest of plan, clearance and surgeon wins, each setting by itself', () => {
  test('two ceilings', () => {
    const low = { bodyWeightPct: 60, speedMps: 4, runMinutes: 10 }
    expect(lowerOf(ceiling, low)).toEqual({ bodyWeightPct: 60, speedMps: 3, runMinutes: 10 })
    expect(lowerOf(ceiling, undefined)).toEqual(ceiling)
    expect(lowerOf(ceiling, { runMinutes: 5 })).toEqual({ ...ceiling, runMinutes: 5 })
  })
  test("the surgeon's limits hold to their last day, or until they are changed", () => {
    const withLimit = (until?: string) =>
      athlete({
        tissue: 'joint',
        ladder: 'knee-eight-levels-treadmill',
        episode: { surgeonLimits: { speedMps: 2.5, ...(until ? { until } : {}) } },
      }).chart()
    expect(ceilingOn(withLimit('2026-03-05'), '2026-03-05')?.speedMps).toBe(2.5)
    expect(ceilingOn(withLimit('2026-03-05'), '2026-03-06')?.speedMps).toBe(3.6)
    expect(ceilingOn(withLimit(), '2026-12-31')?.speedMps).toBe(2.5)
  })
  test('without a plan there is no ceiling; with a plan alone it is the plan', () => {
    const { plan, ...rest } = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }).chart()
    expect(ceilingOn({ ...rest, plan: undefined }, '2026-03-02')).toBeUndefined()
    expect(ceilingOn({ ...rest, plan, clearance: undefined, episode: undefined }, '2026-03-02')).toEqual(
      plan?.ceiling,
    )
  })
})
