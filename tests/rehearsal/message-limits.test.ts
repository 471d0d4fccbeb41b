import { expect, test } from 'vitest'
import { checkMessage } from '../../src/rehearsal/message-limits.ts'

const codes = (message: Parameters<typeof checkMessage>[0]) =>
  checkMessage(message).map((p) => `${p.pointer} ${p.code}`)
const section = (text: string, id?: string) => ({
  type: 'section',
  ...(id && { block_id: id }),
  text: { type: 'mrkdwn', text },
})
const long = (length: number) => 'x'.repeat(length)
const row = (n: number, block: object) => Array.from({ length: n }, () => block)
const button = (action_id: string, label = 'Go') => ({
  type: 'button',
  action_id,
  text: { type: 'plain_text', text: label },
})
const option = (value: string) => ({ text: { type: 'plain_text', text: value }, value })
const actions = (...elements: object[]) => ({ type: 'actions', elements })
const menu = (type: string, n: number) => ({
  type,
  action_id: 'm',
  options: Array.from({ length: n }, (_, i) => option(`o${i}`)),
})
const picture = { type: 'image', alt_text: 'pain over a week', slack_file: { id: 'F1' } }
const table = { type: 'table', rows: [[{ type: 'raw_text', text: 'a' }]] }
const plot = {
  type: 'data_visualization',
  title: 'Pain',
  chart: {
    type: 'line',
    series: [{ name: 'worst', data: [{ label: 'Mon', value: 3 }] }],
    axis_config: { categories: ['Mon'] },
  },
}

/** Each limit at its edge, where it is kept, and just past it, where it bites. */
const edges: Record<string, { kept: unknown[]; past: unknown[]; code: string }> = {
  'fifty blocks': {
    kept: row(50, { type: 'divider' }),
    past: row(51, { type: 'divider' }),
    code: '/blocks too_many',
  },
  '3000 characters in a section': {
    kept: [section(long(3000))],
    past: [section(long(3001))],
    code: '/blocks/0/text/text too_long',
  },
  'text that is not empty': {
    kept: [section(' ')],
    past: [section('')],
    code: '/blocks/0/text/text too_short',
  },
  'a heading that is not empty': {
    kept: [{ type: 'header', text: { type: 'plain_text', text: 'Today' } }],
    past: [{ type: 'header', text: { type: 'plain_text', text: '' } }],
    code: '/blocks/0/text/text too_short',
  },
  'block ids that differ': {
    kept: [section('a', 'one'), section('b', 'two')],
    past: [section('a', 'one'), section('b', 'one')],
    code: '/blocks/1/block_id duplicate_block_id',
  },
  'action ids that differ in a block': {
    kept: [actions(button('a'), button('b'))],
    past: [actions(button('a'), button('a'))],
    code: '/blocks/0 duplicate_action_id',
  },
  'alternative text': {
    kept: [picture],
    past: [{ type: 'image', slack_file: { id: 'F1' } }],
    code: '/blocks/0/alt_text missing',
  },
  'one way to name a picture': {
    kept: [{ ...picture, slack_file: { url: 'https://files/F1' } }],
    past: [{ ...picture, slack_file: { id: 'F1', url: 'https://files/F1' } }],
    code: '/blocks/0/slack_file invalid_slack_file',
  },
  'one source of a picture': {
    kept: [{ type: 'image', alt_text: 'a', image_url: 'https://a' }],
    past: [{ ...picture, image_url: 'https://a' }],
    code: '/blocks/0 invalid_image',
  },
  'a heading of 150': {
    kept: [{ type: 'header', text: { type: 'plain_text', text: long(150) } }],
    past: [{ type: 'header', text: { type: 'plain_text', text: long(151) } }],
    code: '/blocks/0/text/text too_long',
  },
  'ten fields': {
    kept: [{ type: 'section', fields: row(10, { type: 'mrkdwn', text: 'f' }) }],
    past: [{ type: 'section', fields: row(11, { type: 'mrkdwn', text: 'f' }) }],
    code: '/blocks/0/fields too_many',
  },
  'a field of 2000': {
    kept: [{ type: 'section', fields: [{ type: 'mrkdwn', text: long(2000) }] }],
    past: [{ type: 'section', fields: [{ type: 'mrkdwn', text: long(2001) }] }],
    code: '/blocks/0/fields/0/text too_long',
  },
  'ten remarks': {
    kept: [{ type: 'context', elements: row(10, { type: 'mrkdwn', text: 'r' }) }],
    past: [{ type: 'context', elements: row(11, { type: 'mrkdwn', text: 'r' }) }],
    code: '/blocks/0/elements too_many',
  },
  '25 buttons': {
    kept: [actions(...Array.from({ length: 25 }, (_, i) => button(`b${i}`)))],
    past: [actions(...Array.from({ length: 26 }, (_, i) => button(`b${i}`)))],
    code: '/blocks/0/elements too_many',
  },
  'a button of 75': {
    kept: [actions(button('a', long(75)))],
    past: [actions(button('a', long(76)))],
    code: '/blocks/0/elements/0/text/text too_long',
  },
  'an action id of 255': {
    kept: [actions(button(long(255)))],
    past: [actions(button(long(256)))],
    code: '/blocks/0/elements/0/action_id too_long',
  },
  'a hundred options in a menu': {
    kept: [actions(menu('static_select', 100))],
    past: [actions(menu('static_select', 101))],
    code: '/blocks/0/elements/0/options too_many',
  },
  'ten radio buttons': {
    kept: [actions(menu('radio_buttons', 10))],
    past: [actions(menu('radio_buttons', 11))],
    code: '/blocks/0/elements/0/options too_many',
  },
  'ten checkboxes': {
    kept: [actions(menu('checkboxes', 10))],
    past: [actions(menu('checkboxes', 11))],
    code: '/blocks/0/elements/0/options too_many',
  },
  'five in an overflow menu': {
    kept: [actions(menu('overflow', 5))],
    past: [actions(menu('overflow', 6))],
    code: '/blocks/0/elements/0/options too_many',
  },
  'an option of 75': {
    kept: [actions({ ...menu('static_select', 1), options: [option(long(75))] })],
    past: [actions({ ...menu('static_select', 1), options: [{ ...option('a'), value: long(76) }] })],
    code: '/blocks/0/elements/0/options/0/value too_long',
  },
  'a first choice that is offered': {
    kept: [actions({ ...menu('static_select', 2), initial_option: option('o1') })],
    past: [actions({ ...menu('static_select', 2), initial_option: option('o2') })],
    code: '/blocks/0 invalid_initial_option',
  },
  'one table': { kept: [table], past: [table, table], code: '/blocks too_many' },
  'two charts': { kept: [plot, plot], past: [plot, plot, plot], code: '/blocks too_many' },
  'a value for every category': {
    kept: [plot],
    past: [{ ...plot, chart: { ...plot.chart, axis_config: { categories: ['Mon', 'Tue'] } } }],
    code: '/blocks/0/chart missing_value',
  },
  'blocks that belong in a message': {
    kept: [section('careful')],
    past: [{ type: 'alert', text: { type: 'plain_text', text: 'careful' } }],
    code: '/blocks/0 wrong_surface',
  },
  'fields that exist': {
    kept: [{ type: 'divider' }],
    past: [{ type: 'divider', colour: 'red' }],
    code: '/blocks/0/colour invalid_additional_property',
  },
  'blocks that exist': {
    kept: [{ type: 'divider' }],
    past: [{ type: 'blink' }],
    code: '/blocks/0/type unsupported_type',
  },
}

for (const [name, { kept, past, code }] of Object.entries(edges))
  test(`a message keeps to ${name}`, () => {
    expect(codes({ text: 'notice', blocks: kept })).toEqual([])
    expect(codes({ text: 'notice', blocks: past })).toContain(code)
  })

test('a message needs something to show, and 40,000 characters of text are the most', () => {
  expect(codes({})).toEqual(['/text no_text'])
  expect(codes({ text: '', blocks: [] })).toEqual(['/text no_text'])
  expect(codes({ text: '', blocks: [section('a')] })).toEqual([])
  expect(codes({ text: long(40_000) })).toEqual([])
  expect(codes({ text: long(40_001) })).toEqual(['/text msg_too_long'])
})

test('13,000 characters summed over the blocks are the most', () => {
  const summed = (last: number) => [...row(4, section(long(3000))), section(long(last))]
  expect(codes({ text: 'notice', blocks: summed(1000) })).toEqual([])
  expect(codes({ text: 'notice', blocks: summed(1001) })).toEqual(['/blocks msg_blocks_too_long'])
})

test('metadata is an event type and a flat payload of at most 16,000 bytes', () => {
  const metadata = (event_payload: object) => ({
    text: 'a',
    metadata: { event_type: 'notice', event_payload },
  })
  expect(codes(metadata({ key: 'call/1', n: 1, ok: true, list: ['a'], one: { level: 1 } }))).toEqual([])
  expect(codes(metadata({ two: { levels: { deep: 1 } } }))[0]).toContain('invalid_metadata_format')
  expect(codes({ text: 'a', metadata: { event_payload: {} } })[0]).toContain('invalid_metadata_format')
  expect(codes(metadata({ long: long(16_001) }))).toEqual(['/metadata metadata_too_large'])
})
