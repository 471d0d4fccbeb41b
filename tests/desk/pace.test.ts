import { describe, expect, test } from 'vitest'
import { plusMinutes } from '../../src/chart/day.ts'
import type { Notice } from '../../src/chart/notices.ts'
import { openPace, type Pace } from '../../src/desk/pace.ts'

const start = '2026-03-16T06:30:00.000Z'
const secondsOn = (seconds: number) => plusMinutes(start, seconds / 60)
const silence = { failed: 'no answer', outcome: 'unknown' } as const

function to(person: string, over: Partial<Notice> = {}): Notice {
  return { key: `prompt/${person}`, kind: 'prompt', to: { person }, queuedAt: start, ...over }
}

function send(pace: Pace, count: number, person: (i: number) => string, now = start): void {
  for (let i = 0; i < count; i += 1) pace.count(to(person(i)), now)
}

describe('one person', () => {
  test('is told four things at once, the fifth a second later', () => {
    const pace = openPace()
    send(pace, 3, () => 'mika')
    expect(pace.allowance(start).resting).toEqual(new Set())
    send(pace, 1, () => 'mika')
    expect(pace.allowance(start).resting).toEqual(new Set(['mika']))
    expect(pace.endOfRest(start)).toBe(secondsOn(1))
    expect(pace.allowance(secondsOn(0.999)).resting).toEqual(new Set(['mika']))
    expect(pace.allowance(secondsOn(1)).resting).toEqual(new Set())
  })

  test('who is called does not wait, and what was called counts', () => {
    const pace = openPace()
    for (let i = 0; i < 4; i += 1) pace.count(to('mika', { kind: 'call' }), start)
    expect(pace.allowance(start).resting).toEqual(new Set(['mika']))
  })
})

describe('everybody together', () => {
  test('is told 240 things in a minute and twenty more at its start', () => {
    const pace = openPace()
    let sent = 0
    for (let tick = 0; tick < 240; tick += 1)
      for (;;) {
        const now = secondsOn(tick / 4)
        const { most, resting } = pace.allowance(now)
        if (resting === 'all but calls') break
        send(pace, most, (i) => `athlete-${sent + i}`, now)
        sent += most
      }
    expect(sent).toBe(20 + 239)
    expect(pace.endOfRest(secondsOn(239 / 4))).toBe(secondsOn(60))
  })
})

describe('a platform that does not answer', () => {
  test('is asked again after 5 s, 10 s, 20 s, 40 s and then every minute, with one notice at a time', () => {
    const pace = openPace()
    const rests: number[] = []
    let seconds = 0
    for (let i = 0; i < 6; i += 1) {
      pace.heard(silence, secondsOn(seconds))
      expect(pace.allowance(secondsOn(seconds)).resting).toBe('all but calls')
      const end = (Date.parse(pace.endOfRest(secondsOn(seconds)) ?? '') - Date.parse(start)) / 1000
      rests.push(end - seconds)
      seconds = end
      expect(pace.allowance(secondsOn(seconds)).most).toBe(1)
    }
    expect(rests).toEqual([5, 10, 20, 40, 60, 60])
    pace.heard({ sent: { channel: 'D1', ts: '1' } }, secondsOn(seconds))
    expect(pace.allowance(secondsOn(seconds)).most).toBe(8)
  })

  test('eight that fail together are one failure', () => {
    const pace = openPace()
    for (let i = 0; i < 8; i += 1) pace.heard(silence, start)
    expect(pace.endOfRest(start)).toBe(secondsOn(5))
  })

  test('or asks for a rest gets it', () => {
    const pace = openPace()
    pace.heard({ failed: 'rate limited', outcome: 'not sent', retryAfterSeconds: 30 }, start)
    expect(pace.endOfRest(start)).toBe(secondsOn(30))
    expect(pace.allowance(secondsOn(30)).resting).toEqual(new Set())
  })
})

test('messages are changed fifty times a minute; whoever has to wait is told when, and waits once', () => {
  const pace = openPace()
  for (let i = 0; i < 10; i += 1) expect(pace.updateAt(`list/${i}`, start)).toBeUndefined()
  expect(pace.updateAt('list/10', start)).toBe(secondsOn(1.2))
  expect(pace.updateAt('list/11', start)).toBe(secondsOn(2.4))
  expect(pace.updateAt('list/10', secondsOn(1.2))).toBeUndefined()
  expect(pace.updateAt('list/11', secondsOn(2.4))).toBeUndefined()
})
