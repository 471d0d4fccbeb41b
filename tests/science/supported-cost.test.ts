import { describe, expect, test } from 'vitest'
import type { Effort } from '../../src/science/metabolic.ts'
import { vo2MlKgMin } from '../../src/science/metabolic.ts'
import { isRefusal } from '../../src/science/refusal.ts'
import { sources } from '../../src/science/sources.ts'
import * as supported from '../../src/science/supported-cost.ts'

const run = (over: Partial<Effort> = {}): Effort => ({
  gait: 'run',
  metresPerMinute: 187.6,
  gradePct: 0,
  ...over,
})
const kinds = (effort: Effort, pct: number) =>
  supported.supportedCostNotes(effort, pct).map((note) => note.kind)

test('measured cost lies under the equation at every support, so the equation is never shown as the supported value [figueroa-2012]', () => {
  for (let pct = 20; pct < 100; pct++)
    for (const metresPerMinute of [134, 187.6, 300]) {
      const net = supported.supportedNetVo2MlKgMin(run({ metresPerMinute }), pct)
      if (isRefusal(net)) throw new Error(net.words)
      const equation = Number(vo2MlKgMin(run({ metresPerMinute })))
      expect(supported.gross(net).high).toBeLessThan(equation)
      expect(supported.gross(net).low).toBeLessThan(supported.gross(net).high)
    }
})

test('no supported cost where the equation itself is refused', () => {
  expect(isRefusal(supported.supportedNetVo2MlKgMin(run({ metresPerMinute: 100 }), 65))).toBe(true)
})

describe('what was not studied is said to be extrapolated, at the edge and just past it', () => {
  test.each([
    ['65 % at 7 mph, an ordinary session', run(), 65, 0],
    ['60 %', run(), 60, 0],
    ['59 %', run(), 59, 1],
    ['10 km/h', run({ metresPerMinute: 166.7 }), 80, 0],
    ['9.9 km/h', run({ metresPerMinute: 165 }), 80, 1],
    ['5:00 min/mile', run({ metresPerMinute: 321.8 }), 80, 0],
    ['faster', run({ metresPerMinute: 323 }), 80, 1],
    ['7 % at 85 %', run({ gradePct: 7 }), 85, 0],
    ['8 % at 85 %', run({ gradePct: 8 }), 85, 1],
    ['7 % at 70 %', run({ gradePct: 7 }), 70, 1],
    ['full weight', run({ gradePct: 9 }), 100, 0],
    ['walking', run({ gait: 'walk', metresPerMinute: 80 }), 80, 1],
  ] as const)('%s', (_what, effort, pct, count) => {
    expect(kinds(effort, pct)).toEqual(Array.from({ length: count }, () => 'extrapolated'))
  })
})

test('heart beats slower and lactate is lower with each step of support, and nothing is said outside 60-100 % [fleckenstein-2020]', () => {
  expect([100, 80, 60].map(supported.heartRateShiftBpm)).toEqual([0, -15, -27])
  expect([100, 80, 60].map(supported.lactateMmolL)).toEqual([2.5, 1.5, 1.1])
  expect(isRefusal(supported.heartRateShiftBpm(59))).toBe(true)
  expect(isRefusal(supported.lactateMmolL(59))).toBe(true)
})

describe('uphill', () => {
  const net = (effort: Effort, pct: number) => {
    const found = supported.supportedNetVo2MlKgMin(effort, pct)
    if (isRefusal(found)) throw new Error(found.words)
    return found
  }
  const climb = (gait: 'walk' | 'run', pct: number, gradePct: number) => {
    const metresPerMinute = gait === 'run' ? 187.6 : 80
    const [level, up] = [0, gradePct].map((grade) => net({ gait, metresPerMinute, gradePct: grade }, pct))
    return [(up?.low ?? 0) - (level?.low ?? 0), (up?.high ?? 0) - (level?.high ?? 0)] as const
  }
  test('running under support is dearer by the published 6.8 for 7 %, far less than the equation says [fleckenstein-2021]', () => {
    const [low, high] = climb('run', 80, 7)
    expect(low).toBeCloseTo(6.8, 1)
    expect(high).toBeGreaterThan(low)
  })
  test('a steeper slope is dearer in proportion, at both ends', () => {
    const [low, high] = climb('run', 80, 3.5)
    const [twice, twiceHigh] = climb('run', 80, 7)
    expect(twice).toBeCloseTo(2 * low, 6)
    expect(twiceHigh).toBeCloseTo(2 * high, 6)
  })
  test('at full weight, and walking, it is the climb of the equation', () => {
    expect(climb('run', 100, 7)[0]).toBeCloseTo(187.6 * 0.9 * 0.07, 1)
    expect(climb('walk', 100, 7)[0]).toBeCloseTo(80 * 1.8 * 0.07, 1)
    expect(climb('walk', 80, 7)[0]).toBeLessThan(climb('walk', 100, 7)[0])
  })
})

test('every note on what was not studied says so in words and names where the studies end', () => {
  const notes = [
    ...supported.supportedCostNotes({ gait: 'walk', metresPerMinute: 80, gradePct: 0 }, 60),
    ...supported.supportedCostNotes(run({ metresPerMinute: 400, gradePct: 9 }), 40),
  ]
  expect(notes).toHaveLength(4)
  for (const { kind, words, source } of notes) {
    expect(kind).toBe('extrapolated')
    expect(words).toMatch(/Oxygen cost|Uphill/)
    expect(sources[source]).toBeDefined()
  }
})
