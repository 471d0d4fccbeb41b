import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { netFraction, trainedVo2MlKgMin } from '../../src/science/net-fraction.ts'

const pct = fc.double({ min: 20, max: 100, noNaN: true })

describe.each(['run', 'walk'] as const)('the share of net cost left under support, %s', (gait) => {
  test('never rises when weight falls, at either edge', () => {
    fc.assert(
      fc.property(pct, pct, (a, b) => {
        const [less, more] = [netFraction(gait, Math.min(a, b)), netFraction(gait, Math.max(a, b))]
        expect(less.low).toBeLessThanOrEqual(more.low + 1e-12)
        expect(less.high).toBeLessThanOrEqual(more.high + 1e-12)
      }),
    )
  })

  test('is a span and never one number below full weight, and 1 at full weight', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 99.9, noNaN: true }), (at) => {
        const { low, high } = netFraction(gait, at)
        expect(low).toBeLessThan(high)
        expect(low).toBeGreaterThan(0)
        expect(high).toBeLessThanOrEqual(1)
      }),
    )
    expect(netFraction(gait, 100)).toEqual({ low: 1, high: 1 })
  })
})

test('running cost falls less than proportionally to weight: 100 > 60 > 20 %, and dearer than weight [carrard-2018]', () => {
  const [full, sixty, twenty] = [100, 60, 20].map((at) => netFraction('run', at))
  expect(Number(full?.low)).toBeGreaterThan(Number(sixty?.high))
  expect(Number(sixty?.low)).toBeGreaterThan(Number(twenty?.high))
  expect(Number(sixty?.low)).toBeGreaterThan(0.6)
  expect(Number(twenty?.low)).toBeGreaterThan(0.2)
})

test('every published study lies inside the span [mcneill-2015, fleckenstein-2020, ijesab-2-8, teunissen-2007]', () => {
  const published: readonly [number, number][] = [
    [80, 0.66],
    [60, 0.62],
    [80, (trainedVo2MlKgMin(80) - 3.5) / (trainedVo2MlKgMin(100) - 3.5)],
    [60, (trainedVo2MlKgMin(60) - 3.5) / (trainedVo2MlKgMin(100) - 3.5)],
    [75, 0.617],
    [75, 0.614],
    [80, 0.846],
    [80, 0.842],
    [60, 0.68],
    [60, 0.7],
  ]
  for (const [at, net] of published) {
    const { low, high } = netFraction('run', at)
    expect(net, `net ${net} at ${at} %`).toBeGreaterThanOrEqual(low - 5e-3)
    expect(net, `net ${net} at ${at} %`).toBeLessThanOrEqual(high + 5e-3)
  }
})
