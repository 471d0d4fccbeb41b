import { expect, test } from 'vitest'
import { isRefusal } from '../../src/science/refusal.ts'
import { hopSet, limbSymmetryPct } from '../../src/science/symmetry.ts'

test('without a value on the uninvolved side there is no symmetry, not infinity', () => {
  expect(isRefusal(limbSymmetryPct({ involved: 100, uninvolved: 0 }))).toBe(true)
  expect(isRefusal(limbSymmetryPct({ involved: 0, uninvolved: 2 }, 'less'))).toBe(true)
  expect(limbSymmetryPct({ involved: 0, uninvolved: 2 })).toBe(0)
})

test('a slower timed hop is a worse index, though its time is longer', () => {
  expect(limbSymmetryPct({ involved: 2.2, uninvolved: 2 }, 'less')).toBeCloseTo(90.9, 1)
})

test('the hop set shows the worst hop and what was not measured', () => {
  const set = hopSet({
    single: { involved: 135, uninvolved: 150 },
    triple: { involved: 500, uninvolved: 500 },
    'timed-6m': { involved: 2.5, uninvolved: 2 },
  })
  if (isRefusal(set)) throw new Error(set.words)
  expect(set.lowestPct).toBe(80)
  expect(set.symmetryPct.single).toBe(90)
  expect(set.missing).toEqual(['crossover'])
})

test('an empty hop set and a hop without an uninvolved value are refused, by name', () => {
  expect(isRefusal(hopSet({}))).toBe(true)
  const set = hopSet({ crossover: { involved: 1, uninvolved: 0 } })
  expect(isRefusal(set) && set.words).toContain('crossover')
})
