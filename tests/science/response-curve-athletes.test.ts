import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../src/science/refusal.ts'
import { responseCurve, type Session } from '../../src/science/response-curve.ts'
import { normal, seeded } from './seeded.ts'

const described = (sessions: readonly Session[]) => {
  const curve = responseCurve(sessions, 0)
  if (isRefusal(curve) || curve.verdict !== 'described') throw new Error('a curve was expected')
  return curve
}

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
