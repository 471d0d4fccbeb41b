import { expect, test } from 'vitest'
import { refusedTwice } from '../../src/rules/measure-import.ts'
import { athlete } from './life.ts'

test('a line of a file that the record holds already is not taken in again; one that differs is', () => {
  const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
  const hop = {
    kind: 'measure',
    measure: 'single-hop',
    day: '2026-03-01',
    value: 135,
    otherSide: 150,
  } as const
  ada.byTherapist('2026-03-02', hop)
  const twice = (change: object = {}) => refusedTwice(ada.chart(), { athlete: 'ada', ...hop, ...change })
  expect(twice()).toEqual({ refused: 'already-recorded', words: 'The record holds this already.' })
  expect(twice({ value: 136 })).toBeUndefined()
  expect(twice({ otherSide: 151 })).toBeUndefined()
  expect(twice({ day: '2026-02-28' })).toBeUndefined()
  expect(twice({ measure: 'triple-hop' })).toBeUndefined()
})
