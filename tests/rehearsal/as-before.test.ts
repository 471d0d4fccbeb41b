import { expect, test } from 'vitest'
import { asBefore } from '../../src/rehearsal/as-before.ts'

const card = [
  'Today: run',
  'Run 5 min',
  'Before',
  '• shorts',
  '• frame',
  'Stop',
  '• chest pain',
  '• faintness',
  'Why',
]

test('a card is printed whole the first time', () => {
  expect(asBefore(card, new Set())).toEqual(card)
})

test('a list that stands there again is one line; the dose and the reasons are always printed', () => {
  expect(asBefore(card, new Set(card))).toEqual([
    'Today: run',
    'Run 5 min',
    'Before',
    '(5 lines as before)',
    'Why',
  ])
})

test('one changed line of a list is never hidden', () => {
  const changed = card.with(4, '• frame one notch higher')
  expect(asBefore(changed, new Set(card))).toEqual(changed)
})

test('three lines again are printed: saying so would be no shorter', () => {
  const short = ['Stop', '• a', '• b', '• c', 'Why']
  expect(asBefore(short, new Set(short))).toEqual(short)
})
