import { describe, expect, test } from 'vitest'
import type { Effort } from '../../src/science/metabolic.ts'
import { vo2MlKgMin } from '../../src/science/metabolic.ts'
import { isRefusal } from '../../src/science/refusal.ts'
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
