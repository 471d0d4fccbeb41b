import { expect, test } from 'vitest'
import { climbOver } from '../../src/rules/response-week.ts'
import { athlete } from './life.ts'

/** Two weeks of mornings from 2 March on; null is a morning without an answer. */
function mornings(pains: readonly (number | null)[]) {
  const ada = athlete({ tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' })
  for (const [n, morningPain] of pains.entries()) {
    const day = new Date(Date.parse('2026-03-02') + n * 86_400_000).toISOString().slice(0, 10)
    if (morningPain !== null) ada.morning(day, { morningPain, worstPain: 5 })
  }
  return ada.chart()
}
const week = (pain: number) => Array.from({ length: 7 }, () => pain)

test('the worst morning of this week against the worst of last week', () => {
  expect(climbOver(mornings([...week(1), ...week(3)]), '2026-03-15')).toBe(2)
  expect(climbOver(mornings([...week(3), ...week(1)]), '2026-03-15')).toBe(-2)
  expect(climbOver(mornings([...week(2), ...week(2)]), '2026-03-15')).toBe(0)
  expect(climbOver(mornings([1, 1, 1, 1, 1, 1, 4, 2, 2, 2, 2, 2, 2, 2]), '2026-03-15')).toBe(-2)
})

test('nothing is compared before two weeks of mornings have passed', () => {
  expect(climbOver(mornings([...week(1), 3, 3, 3, 3, 3, 3]), '2026-03-14')).toBeUndefined()
  expect(climbOver(mornings([]), '2026-03-15')).toBeUndefined()
})

test('four answered mornings make a week; with three of them the climb is not known, and not averaged over', () => {
  expect(climbOver(mornings([1, 1, 1, 1, null, null, null, 2, 2, 2, 2, null, null, 2]), '2026-03-15')).toBe(1)
  expect(climbOver(mornings([1, 1, 1, null, null, null, null, ...week(2)]), '2026-03-15')).toBe('not known')
  expect(climbOver(mornings([...week(1), null, 2, null, 2, null, null, 2]), '2026-03-15')).toBe('not known')
})

test('the last morning of the week counts, and one from three weeks ago does not', () => {
  expect(climbOver(mornings([...week(1), 1, 1, 1, 1, 1, 1, 3]), '2026-03-15')).toBe(2)
  expect(climbOver(mornings([4, 4, ...week(1), ...week(1)]), '2026-03-17')).toBe(0)
})

test('four answered mornings are enough in the later week too', () => {
  expect(climbOver(mornings([...week(1), 2, null, 2, null, 2, null, 2]), '2026-03-15')).toBe(1)
})

test('mornings after the day that is looked at do not count', () => {
  expect(climbOver(mornings([...week(1), ...week(1), 5, 5]), '2026-03-15')).toBe(0)
})
