import { describe, expect, test } from 'vitest'
import { allFigures } from '../../../src/science/figures/all-figures.ts'
import { compare } from '../../../src/science/figures/figure.ts'
import { sources } from '../../../src/science/sources.ts'

/** A tolerance of 0 means equal; binary fractions still get their last bit. */
const lastBit = 1e-9

for (const [subject, figures] of Object.entries(allFigures))
  describe(subject, () => {
    for (const figure of figures)
      test(`${figure.row}: ${figure.quantity} is as published [${figure.source}]`, () => {
        expect(sources[figure.source]).toBeDefined()
        expect(Math.abs(compare(figure).deviation)).toBeLessThanOrEqual(figure.tolerance + lastBit)
      })
  })

test('a figure that moves away from its publication is noticed, whether a number or a range', () => {
  const base = { row: '', quantity: '', source: 'definition', label: 'read', tolerance: 0 } as const
  expect(compare({ ...base, published: 2, compute: () => 2.5 }).deviation).toBeCloseTo(0.5)
  expect(compare({ ...base, published: 2, compute: () => ({ low: 1, high: 3 }) }).deviation).toBe(0)
  expect(compare({ ...base, published: 4, compute: () => ({ low: 1, high: 3 }) }).deviation).toBe(-1)
  expect(
    compare({ ...base, published: { low: 1, high: 2 }, compute: () => ({ low: 1, high: 3 }) }).deviation,
  ).toBe(1)
  expect(() =>
    compare({ ...base, published: 1, compute: () => ({ refused: 'undefined', words: 'no' }) }),
  ).toThrow('no')
})
