import { expect, test } from 'vitest'
import {
  minimalDetectableChange,
  painChange,
  smallestWorthwhileChange,
  typicalError,
} from '../../src/science/change.ts'
import { isRefusal } from '../../src/science/refusal.ts'

test('6 to 4 is an important relief, 5 to 4 a slight one, 9 to 8 a slight one by its point [farrar-2001, salaffi-2004]', () => {
  expect(painChange(6, 4)).toMatchObject({ points: -2, improvement: 'important' })
  expect(painChange(5, 4)).toMatchObject({ points: -1, improvement: 'slight' })
  expect(painChange(9, 8)).toMatchObject({ improvement: 'slight' })
  expect(painChange(9, 8.5)).toMatchObject({ improvement: 'none' })
})

test('the studies say nothing of worsening, so nothing is said', () => {
  expect(painChange(4, 8)).toMatchObject({ points: 4, improvement: 'none' })
  expect(painChange(0, 3)).toMatchObject({ points: 3, pct: null, improvement: 'none' })
})

test('pain outside 0 to 10 is refused', () => {
  expect(isRefusal(painChange(11, 4))).toBe(true)
})

test('95 % asks for more than 90 %', () => {
  expect(minimalDetectableChange(1, 95)).toBeGreaterThan(minimalDetectableChange(1, 90))
})

test('a smallest worthwhile change below the typical error may be noise', () => {
  expect(smallestWorthwhileChange(3)).toBeLessThan(typicalError(2))
})
