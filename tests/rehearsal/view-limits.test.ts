import { expect, test } from 'vitest'
import { checkView } from '../../src/rehearsal/view-limits.ts'
import { form, plain } from './samples.ts'

const codes = (view: unknown, surface: 'modal' | 'home' = 'modal') =>
  checkView(view, surface).map((p) => `${p.pointer} ${p.code}`)
const long = (length: number) => 'x'.repeat(length)

const edges: Record<string, { kept: object; past: object; code: string }> = {
  'a title of 24': {
    kept: { title: plain(long(24)) },
    past: { title: plain(long(25)) },
    code: '/title/text too_long',
  },
  'a submit of 24': {
    kept: { submit: plain(long(24)) },
    past: { submit: plain(long(25)) },
    code: '/submit/text too_long',
  },
  'a close of 24': {
    kept: { close: plain(long(24)) },
    past: { close: plain(long(25)) },
    code: '/close/text too_long',
  },
  'private metadata of 3000': {
    kept: { private_metadata: long(3000) },
    past: { private_metadata: long(3001) },
    code: '/private_metadata too_long',
  },
  'a callback id of 255': {
    kept: { callback_id: long(255) },
    past: { callback_id: long(256) },
    code: '/callback_id too_long',
  },
  'a hundred blocks': {
    kept: { blocks: Array(100).fill({ type: 'divider' }) },
    past: { blocks: Array(101).fill({ type: 'divider' }) },
    code: '/blocks too_many',
  },
  'a submit when something is asked': {
    kept: { submit: plain('Send') },
    past: { submit: undefined },
    code: '/submit missing',
  },
  'numbers whose limits are strings': {
    kept: {},
    past: {
      blocks: [
        {
          type: 'input',
          label: plain('Pain'),
          element: { type: 'number_input', is_decimal_allowed: false, min_value: 0 },
        },
      ],
    },
    code: '/blocks/0/element/min_value invalid_type',
  },
  'numbers that say whether they have decimals': {
    kept: {},
    past: { blocks: [{ type: 'input', label: plain('Pain'), element: { type: 'number_input' } }] },
    code: '/blocks/0/element/is_decimal_allowed missing',
  },
  'blocks that belong in a modal': {
    kept: {},
    past: { blocks: [{ type: 'markdown', text: 'a' }] },
    code: '/blocks/0 wrong_surface',
  },
  'one focus': {
    kept: {},
    past: {
      blocks: ['a', 'b'].map((block_id) => ({
        type: 'input',
        block_id,
        label: plain('Note'),
        element: { type: 'plain_text_input', focus_on_load: true },
      })),
    },
    code: '/blocks focus_on_load',
  },
  '250,000 bytes in all': {
    kept: {},
    past: {
      blocks: Array.from({ length: 90 }, () => ({ type: 'section', text: plain(long(2900)) })),
    },
    code: ' view_too_large',
  },
}

for (const [name, { kept, past, code }] of Object.entries(edges))
  test(`a modal keeps to ${name}`, () => {
    expect(codes({ ...form, ...kept })).toEqual([])
    expect(codes({ ...form, ...past })).toContain(code)
  })

test('a Home is not a modal, and a modal is not a Home', () => {
  const home = { type: 'home', blocks: [{ type: 'section', text: plain('Today') }] }
  expect(codes(home, 'home')).toEqual([])
  expect(codes(home)).toEqual(['/type wrong_surface'])
  expect(codes(form, 'home')).toEqual(['/type wrong_surface'])
  expect(codes({ ...home, title: plain('Today') }, 'home')).toEqual(['/title invalid_additional_property'])
})
