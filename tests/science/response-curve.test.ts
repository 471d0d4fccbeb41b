import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../src/science/refusal.ts'
import { type ResponseCurve, responseCurve, type Session } from '../../src/science/response-curve.ts'

const described = (sessions: readonly Session[], painLimit = 0) => {
  const curve = responseCurve(sessions, painLimit)
  if (isRefusal(curve) || curve.verdict !== 'described') throw new Error('a curve was expected')
  return curve
}
const settled = (load: number): Session => ({ load, painAfter: 0 })
const provoked = (load: number): Session => ({ load, painAfter: 3 })
const climbing = [1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.4]

describe('too few sessions say so, at the edge and just past it', () => {
  test('seven', () => {
    const curve = responseCurve(climbing.slice(0, 7).map(settled), 0) as ResponseCurve
    expect(curve.verdict).toBe('too-little')
    expect(curve.words).toMatch(/too little to go on: 7 of at least 8/i)
    expect(JSON.stringify(curve)).not.toContain('highestTolerated')
  })
  test('eight', () => expect(described(climbing.map(settled)).verdict).toBe('described'))
})

test('no session yet is too little, and a load of nothing is refused', () => {
  expect(responseCurve([], 0)).toMatchObject({ verdict: 'too-little', sessions: 0 })
  expect(isRefusal(responseCurve([settled(0)], 0))).toBe(true)
})

test('while nothing has provoked, the upper end is said to be open', () => {
  expect(described(climbing.map(settled)).openAbove).toBe(true)
  expect(described([...climbing.map(settled), provoked(2.6)]).openAbove).toBe(false)
})

test('what counts as provoked is the pain limit of the protocol: 3 provokes bone, not tendon', () => {
  const sessions = climbing.map((load, i) => (i > 4 ? provoked(load) : settled(load)))
  expect(described(sessions, 5).openAbove).toBe(true)
  expect(described(sessions, 0).openAbove).toBe(false)
})

test('the unit of load does not matter', () => {
  const sessions = climbing.map((load, i) => (i > 5 ? provoked(load) : settled(load)))
  const [small, large] = [
    described(sessions),
    described(sessions.map((s) => ({ ...s, load: 1000 * s.load }))),
  ]
  expect(large.highestTolerated.best / small.highestTolerated.best).toBeCloseTo(1000, 6)
})

test('more sessions of the same kind narrow the band', () => {
  const some = [...climbing.map(settled), provoked(2.6), settled(2.3), provoked(2.6)]
  const width = (sessions: readonly Session[]) => {
    const { low, high } = described(sessions).highestTolerated
    return high / low
  }
  expect(width([...some, settled(2.4), provoked(2.6), settled(2.4), provoked(2.6)])).toBeLessThan(width(some))
})

test('one bad night after the easiest run hardly moves what many later runs have shown', () => {
  const later = [1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.4, 2.2, 2.4, 2.2].map((load) =>
    load > 2.3 ? provoked(load) : settled(load),
  )
  const clean = described([settled(1), ...later]).highestTolerated
  const stray = described([provoked(1), ...later]).highestTolerated
  expect(Math.abs(stray.best / clean.best - 1)).toBeLessThan(0.05)
})

test('the same sessions always give the same curve, and its guess lies inside its band', () => {
  const sessions = [...climbing.map((load) => (load > 2.1 ? provoked(load) : settled(load))), settled(2)]
  const { highestTolerated } = described(sessions)
  const { low, best, high } = highestTolerated
  expect([low, best, high].map((load) => Number(load.toFixed(3)))).toEqual([2.008, 2.132, 2.602])
  const lower = described(sessions.map((one) => (one.load > 1.7 ? provoked(one.load) : one))).highestTolerated
  expect(lower.best).toBeLessThan(best)
})
