import { expect, test } from 'vitest'
import { againstFullWeight } from '../../src/science/against-full-weight.ts'
import { cost } from '../../src/science/cost.ts'
import { isRefusal } from '../../src/science/refusal.ts'

const load = (bodyWeightPct: number, minutes?: number, measuredBodyWeightPct?: number) => {
  const bout = {
    gait: 'run' as const,
    speedMps: 3,
    gradePct: 0,
    bodyWeightPct,
    minutes,
    measuredBodyWeightPct,
  }
  const costed = cost(bout, {})
  if (isRefusal(costed)) throw new Error(costed.words)
  return againstFullWeight(costed, 'tendon')
}
const ratioOf = (of: ReturnType<typeof load>) => {
  if (isRefusal(of)) throw new Error(of.words)
  return of
}

test('full weight, measured, against full weight is the same load', () => {
  const same = JSON.stringify(ratioOf(load(100, 10, 100)))
  expect(same).toBe(JSON.stringify(ratioOf(load(100, 20, 100))))
})

test('less weight is less load, the more so the less is carried', () => {
  const [heavy, light] = [ratioOf(load(80, 10, 80)), ratioOf(load(60, 10, 60))]
  const least = (of: typeof heavy) => Math.min(...numbersIn(of))
  expect(least(light)).toBeLessThan(least(heavy))
})

test('without minutes there are no steps, and it says so', () => {
  const refused = load(60)
  expect(isRefusal(refused) && refused.words).toContain('needs minutes')
})

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(numbersIn) : []
}
