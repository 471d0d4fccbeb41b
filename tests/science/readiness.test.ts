import { expect, test } from 'vitest'
import { againstOwnBaseline } from '../../src/science/readiness.ts'

const seven = [10, 12, 11, 13, 12, 14, 12]

test('seven answered days make a baseline, six do not', () => {
  expect(againstOwnBaseline(15, seven).verdict).toBe('compared')
  expect(againstOwnBaseline(15, seven.slice(1))).toMatchObject({ verdict: 'no-baseline', days: 6 })
})

test('a missing day is left out: it is neither 0 nor the mean', () => {
  const gaps = [10, null, 12, 11, null, 13, 12, 14, null, 12]
  expect(againstOwnBaseline(15, gaps)).toEqual(againstOwnBaseline(15, seven))
})

test('days older than 28 do not count, answered or not', () => {
  const old = Array.from({ length: 40 }, () => 99)
  const recent = Array.from({ length: 28 }, (_, i) => seven[i % 7] ?? 0)
  expect(againstOwnBaseline(15, [...old, ...recent])).toEqual(againstOwnBaseline(15, recent))
  const empty = [...seven, ...Array.from({ length: 28 }, () => null)]
  expect(againstOwnBaseline(15, empty).verdict).toBe('no-baseline')
})

test('always the same answer leaves z undefined and shows the raw difference', () => {
  expect(
    againstOwnBaseline(
      15,
      Array.from({ length: 7 }, () => 12),
    ),
  ).toMatchObject({ z: null, difference: 3 })
})

test('a difference no larger than asking twice would give is noise', () => {
  const noise = (typicalError?: number) => {
    const answer = againstOwnBaseline(15, seven, typicalError)
    return answer.verdict === 'compared' ? answer.noise : answer.verdict
  }
  expect(noise()).toBe('unknown')
  expect(noise(2)).toBe('beyond')
  expect(noise(3)).toBe('inside')
})
