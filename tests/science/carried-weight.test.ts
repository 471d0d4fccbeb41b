import fc from 'fast-check'
import { expect, test } from 'vitest'
import { carriedFraction, expectedPct, reckonedPct, settingNotes } from '../../src/science/carried-weight.ts'

test('the sign of the setting error turns over: heavier than shown at 20 and 30, as shown at 70 to 90, lighter at 100 [set-actual-2015]', () => {
  expect(expectedPct(20) - 20).toBeCloseTo(7.67, 9)
  expect(expectedPct(30) - 30).toBeCloseTo(5.75, 9)
  for (const set of [70, 80, 90]) expect(expectedPct(set)).toBe(set)
  expect(expectedPct(100) - 100).toBeCloseTo(-6.85, 9)
})

test('a lower setting never comes out as more weight, at either edge or in the mean', () => {
  const set = fc.double({ min: 20, max: 100, noNaN: true })
  fc.assert(
    fc.property(set, set, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)]
      expect(carriedFraction({ bodyWeightPct: less }).low).toBeLessThanOrEqual(
        carriedFraction({ bodyWeightPct: more }).low,
      )
      expect(carriedFraction({ bodyWeightPct: less }).high).toBeLessThanOrEqual(
        carriedFraction({ bodyWeightPct: more }).high,
      )
      expect(expectedPct(less)).toBeLessThanOrEqual(expectedPct(more))
    }),
  )
})

test('the band holds both the setting and the published mean', () => {
  for (let set = 20; set <= 100; set++) {
    const { low, high } = carriedFraction({ bodyWeightPct: set })
    for (const pct of [set, expectedPct(set)]) {
      expect(pct / 100).toBeGreaterThanOrEqual(low)
      expect(pct / 100).toBeLessThanOrEqual(high)
    }
  }
})

test('once the athlete was weighed inside, the setting is beside the point', () => {
  const weighed = { bodyWeightPct: 30, measuredBodyWeightPct: 37 }
  expect(carriedFraction(weighed)).toEqual({ low: 0.37, high: 0.37 })
  expect(reckonedPct(weighed)).toBe(37)
  expect(settingNotes(weighed)).toEqual([])
})

test.each([
  [20, 1],
  [34, 1],
  [35, 0],
  [65, 0],
  [95, 0],
  [96, 1],
  [100, 1],
])('at a setting of %d %% there are %d cautions', (set, count) => {
  expect(settingNotes({ bodyWeightPct: set }).filter((note) => note.kind === 'caution')).toHaveLength(count)
})
