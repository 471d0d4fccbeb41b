import { expect, test } from 'vitest'
import { pushedClock, runningClock } from '../../src/rehearsal/clock.ts'

test('a pushed clock stands still, goes forward when it is pushed, and never back', () => {
  const clock = pushedClock('2026-03-02T06:30:00Z')
  expect(clock.now()).toBe('2026-03-02T06:30:00.000Z')
  clock.pushBy({ days: 1, hours: 1, minutes: 1, seconds: 1 })
  expect(clock.now()).toBe('2026-03-03T07:31:01.000Z')
  clock.pushTo('2026-03-04T00:00:00Z')
  expect(() => clock.pushTo('2026-03-03T23:59:59Z')).toThrow('cannot go back')
  expect(() => clock.pushTo('tomorrow')).toThrow('not an instant')
})

test('who watches a clock is told of a push after it happened, until the watch ends', () => {
  const clock = pushedClock('2026-03-02T06:30:00Z')
  const seen: string[] = []
  const stop = clock.whenPushed(() => seen.push(clock.now()))
  clock.pushBy({ minutes: 1 })
  stop()
  clock.pushBy({ minutes: 1 })
  expect(seen).toEqual(['2026-03-02T06:31:00.000Z'])
})

test('a running clock goes on from where it was pushed to', () => {
  const clock = runningClock('2026-03-02T06:30:00Z')
  clock.pushBy({ hours: 1 })
  const after = Date.parse(clock.now()) - Date.parse('2026-03-02T07:30:00Z')
  expect(after).toBeGreaterThanOrEqual(0)
  expect(after).toBeLessThan(60_000)
})
