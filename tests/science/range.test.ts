import { expect, test } from 'vitest'
import { along, alongLine } from '../../src/science/range.ts'

const points = [
  [1, 10],
  [2, 20],
  [4, 0],
] as const

test('between points it goes straight, outside it is held or led on as the source says', () => {
  expect([0, 1, 1.5, 2, 3, 4, 5].map((x) => along(points, x))).toEqual([10, 10, 15, 20, 10, 0, 0])
  expect([0, 1, 1.5, 2, 3, 4, 5].map((x) => alongLine(points, x))).toEqual([0, 10, 15, 20, 10, 0, -10])
})
