import { describe, expect, test } from 'vitest'
import type { MeasureKind } from '../../src/chart/measure-kind.ts'
import { allowedWords, readingOf, refusedMeasure, symmetryPct } from '../../src/rules/measures.ts'
import { scores } from '../../src/science/scores-table.ts'
import { library } from './life.ts'

function kind(id: string): MeasureKind {
  const found = library.measure(id)
  if (!found) throw new Error(id)
  return found
}

describe('limb symmetry is the injured side in percent of the other', () => {
  test('135 of 150 cm is 90 %, 96 of 120 is 80 % [gokeler-2017]', () => {
    expect(symmetryPct(kind('single-hop'), { value: 135, otherSide: 150 })).toBeCloseTo(90, 2)
    expect(symmetryPct(kind('triple-hop'), { value: 96, otherSide: 120 })).toBeCloseTo(80, 2)
  })
  test('a timed hop is turned over: 2.2 s against 2.0 s is 90.9 % (T5)', () => {
    expect(symmetryPct(kind('timed-hop'), { value: 2.2, otherSide: 2 })).toBeCloseTo(90.9, 1)
  })
  test('without the other side, or with nothing on it, there is none', () => {
    expect(symmetryPct(kind('single-hop'), { value: 135 })).toBeUndefined()
    expect(symmetryPct(kind('single-hop'), { value: 135, otherSide: 0 })).toBeUndefined()
    expect(symmetryPct(kind('single-hop'), { value: 0, otherSide: 150 })).toBe(0)
  })
})

describe('forms are kept by their totals', () => {
  test('an IKDC total of 60 is 69.0 coded from 0 and 48.3 coded from 1 (T6) [ikdc-scoring]', () => {
    expect(readingOf(kind('ikdc'), { value: 60 })).toBeCloseTo(68.97, 2)
    expect(readingOf(kind('ikdc-from-1'), { value: 60 })).toBeCloseTo(48.28, 2)
  })
  test('the child form: 60 of 92 is 65.2 [pedi-ikdc]', () => {
    expect(readingOf(kind('pedi-ikdc'), { value: 60 })).toBeCloseTo(65.22, 2)
  })
  test('a LEFS of 80 is the most there is [binkley-1999]', () => {
    expect(readingOf(kind('lefs'), { value: 80 })).toBe(80)
    expect(kind('lefs').noise).toBe(9)
  })
  test('the limits of a form are those of its score', () => {
    for (const id of ['ikdc', 'ikdc-from-1', 'pedi-ikdc', 'lefs', 'tsk-11'] as const) {
      const [low, high] = scores.questionnaires[id].bounds.value
      expect([kind(id).low, kind(id).high, id]).toEqual([low, high, id])
    }
  })
})

describe('what cannot be is refused, with what is allowed', () => {
  const today = '2026-03-02'
  const hand = (measure: string, value: number, more: object = {}) =>
    refusedMeasure({ measure, value, day: today, ...more }, library, today)
  test('inside its limits it is taken, both ends too', () => {
    expect(hand('lefs', 0)).toBeUndefined()
    expect(hand('lefs', 80)).toBeUndefined()
    expect(hand('single-hop', 135, { otherSide: 150 })).toBeUndefined()
  })
  test('outside, in fractions, of one side too many, unknown, or of a day to come it is not', () => {
    expect(hand('lefs', 81)).toMatchObject({
      field: 'value',
      words: 'LEFS: total: 0 to 80 points, whole numbers.',
    })
    expect(hand('lefs', -1)?.refused).toBe('out-of-range')
    expect(hand('lefs', 60.5)?.refused).toBe('out-of-range')
    expect(hand('lefs', 60, { otherSide: 60 })).toMatchObject({ refused: 'one-side', field: 'otherSide' })
    expect(hand('single-hop', 135, { otherSide: 401 })).toMatchObject({
      refused: 'out-of-range',
      field: 'otherSide',
    })
    expect(hand('no-such', 1)).toEqual({
      refused: 'unknown-measure',
      words: 'There is no measure no-such; see measures.json.',
      field: 'measure',
    })
    expect(hand('lefs', 60, { day: '2026-03-03' })).toEqual({
      refused: 'not-yet',
      words: 'That day has not come yet.',
      field: 'day',
    })
    expect(hand('lefs', 60, { otherSide: 60 })?.words).toBe('LEFS: total has one value.')
  })
  test('an effusion has the five grades of the stroke test and nothing between [effusion-grades]', () => {
    for (const grade of [0, 0.5, 1, 2, 3]) expect(hand('effusion-grade', grade)).toBeUndefined()
    expect(hand('effusion-grade', 1.5)?.words).toContain('0.5 (trace: small wave)')
    expect(allowedWords(kind('single-hop'))).toBe('0 to 400 cm')
    expect(allowedWords(kind('gait-even'))).toBe('0 (not even), 1 (even)')
    expect(allowedWords({ ...kind('single-hop'), unit: '' })).toBe('0 to 400')
  })
})
