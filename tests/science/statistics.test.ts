import fc from 'fast-check'
import * as library from 'simple-statistics'
import { expect, test } from 'vitest'
import { mean, standardDeviation, standardScore, sum } from '../../src/science/statistics.ts'

const values = fc.array(fc.double({ min: -1e4, max: 1e4, noNaN: true }), { minLength: 2, maxLength: 40 })

test('sums, means, both standard deviations and z agree with a general library of statistics', () => {
  fc.assert(
    fc.property(values, (list) => {
      expect(sum(list)).toBeCloseTo(library.sum(list), 6)
      expect(mean(list)).toBeCloseTo(library.mean(list), 6)
      expect(standardDeviation(list, 'sample')).toBeCloseTo(library.sampleStandardDeviation(list), 6)
      expect(standardDeviation(list, 'population')).toBeCloseTo(library.standardDeviation(list), 6)
      expect(standardScore(3, 1, 4)).toBeCloseTo(library.zScore(3, 1, 4), 12)
    }),
  )
})

test('equal values have a spread of exactly 0, whatever rounding does to their mean', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.integer({ min: 2, max: 50 }),
      (value, count) => {
        const same = Array.from({ length: count }, () => value)
        expect(standardDeviation(same, 'sample')).toBe(0)
        expect(standardDeviation(same, 'population')).toBe(0)
      },
    ),
  )
})
