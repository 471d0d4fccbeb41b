import { expect, test } from 'vitest'
import { isRefusal, refuse } from '../../src/science/refusal.ts'

test('a refusal has words; one that says nothing is a bug', () => {
  expect(refuse('say-more', 'Say minutes.')).toEqual({ refused: 'say-more', words: 'Say minutes.' })
  expect(isRefusal(refuse('say-more', 'Say minutes.'))).toBe(true)
  expect(() => refuse('say-more', ' ')).toThrow('says nothing')
})

test('a number, nothing and an ordinary answer are no refusals', () => {
  for (const answer of [3, null, undefined, { words: 'x' }]) expect(isRefusal(answer)).toBe(false)
})
