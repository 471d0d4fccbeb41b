import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isRefusal } from '../../src/science/refusal.ts'
import { dailyLoads, sessionLoadAu, weekOf } from '../../src/science/session-load.ts'

test('effort is taken from 0 to 10, at the edge and just past it [foster-2001]', () => {
  expect(sessionLoadAu(10, 30)).toBe(300)
  expect(isRefusal(sessionLoadAu(10.1, 30))).toBe(true)
  expect(isRefusal(sessionLoadAu(-1, 30))).toBe(true)
  expect(isRefusal(sessionLoadAu(5, -1))).toBe(true)
})

test('a day holds all its sessions, and a rest day is 0, not missing', () => {
  expect(dailyLoads([[300, 120], [], [50]])).toEqual([420, 0, 50])
})

test('a week of equal days has no monotony, no strain and no infinity: it has a reason', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 2000, noNaN: true }),
      fc.constantFrom('sample' as const, 'population' as const),
      (load, spread) => {
        const week = weekOf(
          Array.from({ length: 7 }, () => load),
          spread,
        )
        expect(week).toMatchObject({
          sd: 0,
          monotony: null,
          strain: null,
          reason: expect.stringContaining('0'),
        })
      },
    ),
  )
})

test('one day has no spread', () => {
  expect(weekOf([300], 'sample')).toMatchObject({ weekLoad: 300, monotony: null, strain: null })
})

test('the spread is always said, because the founding papers do not [foster-1998]', () => {
  expect(weekOf([1, 2], 'population').spread).toBe('population')
  expect(Number(weekOf([0, 300, 450], 'population').monotony)).toBeGreaterThan(
    Number(weekOf([0, 300, 450], 'sample').monotony),
  )
})
