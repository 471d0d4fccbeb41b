import { describe, expect, test } from 'vitest'
import { isRepeated } from '../../src/rules/repeated.ts'
import { athlete } from './life.ts'

const clearance = {
  kind: 'clearance',
  state: 'ground running',
  until: '2026-04-30',
  ceiling: { bodyWeightPct: 90, speedMps: 3, runMinutes: 20 },
} as const

function signedAt(time = '12:00') {
  const ada = athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' })
  ada.byTherapist('2026-03-02', clearance, time)
  return ada
}
function again(ada: ReturnType<typeof signedAt>, time: string, change: object = {}, by = 'iben') {
  const unsigned = { athlete: 'ada', ...clearance, ...change }
  return isRepeated(ada.chart(), unsigned, by, `2026-03-02T${time}:00.000Z`)
}

describe('a form that was sent twice is written once', () => {
  test('the same again by the same person within ten minutes, whatever the order of its parts', () => {
    expect(again(signedAt(), '12:00')).toBe(true)
    expect(again(signedAt(), '12:10')).toBe(true)
    expect(again(signedAt(), '12:11')).toBe(false)
    const turned = { ceiling: { runMinutes: 20, speedMps: 3, bodyWeightPct: 90 } }
    expect(again(signedAt(), '12:05', turned)).toBe(true)
  })
  test('not when another signs it, or anything differs', () => {
    expect(again(signedAt(), '12:05', {}, 'ravi')).toBe(false)
    expect(again(signedAt(), '12:05', { until: '2026-04-29' })).toBe(false)
    const other = { ceiling: { ...clearance.ceiling, runMinutes: 21 } }
    expect(again(signedAt(), '12:05', other)).toBe(false)
    expect(again(signedAt(), '12:05', { restrictions: ['no hills'] })).toBe(false)
  })
  test('not when the first was struck out: then it is meant', () => {
    const ada = signedAt()
    const strikes = ada.chart().clearance?.id
    ada.byTherapist('2026-03-02', { kind: 'amendment', strikes, words: 'Typed wrong.' }, '12:02')
    expect(again(ada, '12:05')).toBe(false)
    const otherStruck = signedAt()
    otherStruck.byTherapist(
      '2026-03-02',
      { kind: 'amendment', strikes: 'plan-signed/ada/1', words: 'Typed wrong.' },
      '12:02',
    )
    expect(again(otherStruck, '12:05')).toBe(true)
  })
  test('two holds for two reasons are two, and of a kind that was never written none is a repeat', () => {
    const ada = signedAt()
    ada.byTherapist('2026-03-02', { kind: 'hold', words: 'Wait for the scan.' }, '12:00')
    const hold = { athlete: 'ada', kind: 'hold', words: 'Wait for the scan.' }
    expect(isRepeated(ada.chart(), hold, 'iben', '2026-03-02T12:01:00.000Z')).toBe(false)
    const review = { athlete: 'ada', kind: 'review', day: '2026-03-02', next: 'go on' }
    expect(isRepeated(ada.chart(), review, 'iben', '2026-03-02T12:01:00.000Z')).toBe(false)
  })
})
