import { expect, test } from 'vitest'
import type { Block } from '../../src/rehearsal/block-limits.ts'
import { checkForm } from '../../src/rehearsal/form-check.ts'
import { type Answer, answered } from '../../src/rehearsal/form-values.ts'
import { plain } from './samples.ts'

type Input = Extract<Block, { type: 'input' }>

/** What a client says to one answer in one field. */
function said(element: object, answer: Answer, optional = false): string | undefined {
  const input = { type: 'input', block_id: 'b', label: plain('Label'), element, optional } as Input
  const state = { b: { '': answered(input.element, answer) } }
  return checkForm([input], state).b
}
const number = (more: object) => ({ type: 'number_input', is_decimal_allowed: true, ...more })

test('a number is held to its least and its most, at the edge and just past it', () => {
  const pain = number({ min_value: '0', max_value: '10' })
  expect([said(pain, 0), said(pain, 10)]).toEqual([undefined, undefined])
  expect(said(pain, -0.1)).toContain('at least 0')
  expect(said(pain, 10.1)).toContain('at most 10')
})

test('a number is a number, and whole when decimals are not allowed', () => {
  expect(said(number({}), '2.5')).toBeUndefined()
  expect(said(number({}), 'two')).toContain('a number')
  expect(said(number({}), '1e3')).toContain('a number')
  expect(said({ ...number({}), is_decimal_allowed: false }, '2.5')).toContain('whole')
  expect(said({ ...number({}), is_decimal_allowed: false }, '3')).toBeUndefined()
})

test('what must be answered is missed, what may be left out is not', () => {
  const radio = { type: 'radio_buttons', options: [{ text: plain('Yes'), value: 'yes' }] }
  expect(said(radio, null)).toContain('required')
  expect(said(radio, null, true)).toBeUndefined()
  expect(said(radio, 'Yes')).toBeUndefined()
  expect(said({ ...radio, type: 'checkboxes' }, [])).toContain('required')
  expect(said({ type: 'datepicker' }, null)).toContain('required')
})

test('a text keeps to its lengths, an address looks like one', () => {
  const note = { type: 'plain_text_input', min_length: 2, max_length: 4 }
  expect([said(note, 'ab'), said(note, 'abcd')]).toEqual([undefined, undefined])
  expect(said(note, 'a')).toContain('at least 2')
  expect(said(note, 'abcde')).toContain('at most 4')
  expect(said({ type: 'email_text_input' }, 'nobody')).toContain('email')
  expect(said({ type: 'url_text_input' }, 'nowhere')).toContain('URL')
})

test('what no client offers cannot be answered', () => {
  expect(() => said({ type: 'datepicker' }, 'tomorrow')).toThrow('cannot be picked')
  expect(() => said({ type: 'timepicker' }, '25:00')).toThrow('cannot be picked')
  const two = {
    type: 'multi_static_select',
    max_selected_items: 1,
    options: ['a', 'b'].map((value) => ({ text: plain(value), value })),
  }
  expect(() => said(two, ['a', 'b'])).toThrow('at most 1')
})
