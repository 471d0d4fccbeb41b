import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../src/science/refusal.ts'
import { type ResponseCurve, responseCurve, type Session } from '../../src/science/response-curve.ts'
import { normal, seeded } from './seeded.ts'

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

/**
 * Athletes with a known threshold and blur, whose next dose follows the last answers. Neither these
 * populations and step rules nor these seeds were used to choose the prior.
 */
type Step = (load: number, wasProvoked: boolean, settledInARow: number, random: () => number) => number
type Kind = {
  readonly athletes: string
  readonly threshold: (random: () => number) => number
  readonly blur: (random: () => number) => number
  readonly step: Step
}
const between = (random: () => number, low: number, high: number) => low + (high - low) * random()
const evenly = (random: () => number, low: number, high: number) =>
  Math.exp(between(random, Math.log(low), Math.log(high)))

const upOrBack: Step = (load, was) => (was ? load / 1.12 : load * 1.12)
const onlyAfterTwoSettled: Step = (load, was, inARow) =>
  was ? load * 0.8 : inARow % 2 === 0 ? load * 1.18 : load
const byTenthsOfTheFirst: Step = (load, was) => Math.max(0.3, was ? load - 0.2 : load + 0.15)
const ragged: Step = (load, was, _inARow, random) => {
  if (random() < 0.25) return load
  return was ? load * between(random, 0.7, 0.95) : load * between(random, 1.03, 1.3)
}

const ordinary = (random: () => number) => 1.9 * Math.exp(0.5 * normal(random))
const kinds: readonly Kind[] = [
  {
    athletes: 'a rung up or a rung back',
    threshold: ordinary,
    blur: (r) => evenly(r, 0.04, 0.35),
    step: upOrBack,
  },
  {
    athletes: 'a rung up only after two settled',
    threshold: ordinary,
    blur: (r) => evenly(r, 0.04, 0.35),
    step: onlyAfterTwoSettled,
  },
  {
    athletes: 'steps of a share of the first load',
    threshold: (r) => between(r, 1.1, 3.5),
    blur: (r) => evenly(r, 0.04, 0.35),
    step: byTenthsOfTheFirst,
  },
  {
    athletes: 'ragged steps on uneven days',
    threshold: (r) => evenly(r, 0.9, 4),
    blur: (r) => evenly(r, 0.08, 0.4),
    step: ragged,
  },
  { athletes: 'days much alike', threshold: ordinary, blur: (r) => evenly(r, 0.02, 0.06), step: upOrBack },
]

function simulated(kind: Kind, random: () => number): { threshold: number; sessions: readonly Session[] } {
  const threshold = kind.threshold(random)
  const blur = kind.blur(random)
  const sessions: Session[] = []
  let load = 1
  let inARow = 0
  for (let left = Math.floor(between(random, 10, 31)); left > 0; left--) {
    const was = random() < 1 / (1 + (threshold / load) ** (1 / blur))
    sessions.push({ load, painAfter: was ? 3 : 0 })
    inARow = was ? 0 : inARow + 1
    load = kind.step(load, was, inARow, random)
  }
  return { threshold, sessions }
}

function covered(kind: Kind, random: () => number): boolean {
  const { threshold, sessions } = simulated(kind, random)
  const { low, high } = described(sessions).highestTolerated
  return low <= threshold && threshold <= high
}

const coverage = (kindOf: (i: number) => Kind | undefined, seed: number): number => {
  const random = seeded(seed)
  const hits = Array.from({ length: 500 }, (_, i) => {
    const kind = kindOf(i)
    return kind !== undefined && covered(kind, random)
  })
  return hits.filter(Boolean).length / 500
}

describe('the 80 % band holds the true threshold of 75 to 85 % of 500 athletes of every kind', () => {
  test.each([11, 2026, 90210, 4])('seed %d', (seed) => {
    const share = coverage((i) => kinds[i % kinds.length], seed)
    expect(share).toBeGreaterThanOrEqual(0.75)
    expect(share).toBeLessThanOrEqual(0.85)
  })
})

describe('of one kind of athlete alone it holds 7 in 10 at the least (and more than 9 in 10 where days are much alike)', () => {
  for (const kind of kinds)
    test(kind.athletes, () => {
      const share = coverage(() => kind, 77)
      expect(share).toBeGreaterThanOrEqual(0.7)
      expect(share).toBeLessThanOrEqual(0.95)
    })
})

test('of 200 such athletes, turning one settled answer into a provoked one never raises the best guess by a tenth, and mostly lowers it', () => {
  const random = seeded(31)
  const raised = Array.from({ length: 200 }, (_, i) => {
    const kind = kinds[i % kinds.length]
    if (kind === undefined) throw new Error('there are kinds')
    const { sessions } = simulated(kind, random)
    const at = Math.floor(random() * sessions.length)
    const bestWith = (painAfter: number) =>
      described(sessions.map((s, j) => (j === at ? { ...s, painAfter } : s))).highestTolerated.best
    return bestWith(3) / bestWith(0)
  })
  expect(Math.max(...raised)).toBeLessThan(1.1)
  expect(raised.filter((ratio) => ratio < 1).length).toBeGreaterThan(100)
})

test('one bad night after the easiest run hardly moves what many later runs have shown', () => {
  const later = [1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.4, 2.2, 2.4, 2.2].map((load) =>
    load > 2.3 ? provoked(load) : settled(load),
  )
  const clean = described([settled(1), ...later]).highestTolerated
  const stray = described([provoked(1), ...later]).highestTolerated
  expect(Math.abs(stray.best / clean.best - 1)).toBeLessThan(0.05)
})
