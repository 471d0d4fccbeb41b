import { expect, test } from 'vitest'
import type { Block } from '../../src/rehearsal/block-limits.ts'
import { findOnScreen } from '../../src/rehearsal/on-screen.ts'
import { plain } from './samples.ts'

const button = (action_id: string, words: string, value: string) => ({
  type: 'button',
  action_id,
  text: plain(words),
  value,
})
const blocks = [
  { type: 'actions', block_id: 'a', elements: [button('open', 'Open', 'ada')] },
  {
    type: 'actions',
    block_id: 'b',
    elements: [button('open', 'Open', 'ben'), button('hold', 'Hold', 'ben')],
  },
] as Block[]
const found = (name: string, value?: string) => {
  const { element } = findOnScreen(blocks, name, value)
  return element.type === 'button' ? element.value : undefined
}

test('a part is found by its action, by the words on it, and among several by its value', () => {
  expect(found('hold')).toBe('ben')
  expect(found('Hold')).toBe('ben')
  expect(found('Open', 'ben')).toBe('ben')
  expect(found('Open', 'ada')).toBe('ada')
})

test('whoever could mean two things, or one that is not there, is asked again', () => {
  expect(() => found('Open')).toThrow('stands 2 times')
  expect(() => found('Close')).toThrow('there is: Open, Open, Hold')
  expect(() => findOnScreen([], 'Open')).toThrow('nothing to act on')
})
