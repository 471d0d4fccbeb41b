import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { kinds, openKinds, options, plain } from './kinds.ts'
import { openVisitor, type Visitor } from './visitor.ts'

let opened: Awaited<ReturnType<typeof openKinds>>
let visitor: Visitor

beforeAll(async () => {
  opened = await openKinds()
  visitor = await openVisitor(opened.stage)
})
afterAll(async () => {
  await visitor.page.close()
  await opened.app.stop()
  await opened.stage.workspace.close()
})

async function openForm() {
  const page = await visitor.does('mika', 'write', [['text', '/kinds']])
  return { page, view: visitor.formWith(page, 'Leave') }
}

const filled = kinds.flatMap((kind, i) => kind.posted.map((value) => [`f-k${i}`, value] as const))

test('every kind of question is drawn with its label, and arrives as the platform would send it', async () => {
  const { page, view } = await openForm()
  for (const i of kinds.keys()) expect(page).toMatch(new RegExp(`Question ${i}\\s*<`))
  const sent = await visitor.does('mika', 'form', [...view, ...filled, ['does', 'submit']])
  expect(sent).toContain('Sent: Kinds.')
  const values = opened.told.at(-1)?.values as Record<string, Record<string, object>>
  for (const [i, kind] of kinds.entries()) expect(values[`k${i}`]?.[`k${i}`]).toMatchObject(kind.told)
})

test('what was typed stands there again when something is wrong with one answer', async () => {
  const { view } = await openForm()
  const wrong = filled.map(([name, value]) =>
    name === 'f-k2' ? ([name, 'much'] as const) : ([name, value] as const),
  )
  const page = await visitor.does('mika', 'form', [...view, ...wrong, ['does', 'submit']])
  expect(page).toMatch(/id="f-k2-wrong">Please enter a number/)
  expect(page).toContain('value="much"')
  expect(page).toContain('value="2026-04-01T06:30"')
  expect(page).toContain('>one\ntwo</textarea>')
  expect(page).toMatch(/value="blue"\s+checked/)
  expect(page).toMatch(/<option value="U5IBEN" selected/)
  expect(await visitor.does('mika', 'form', [...view, ['does', 'close']])).not.toContain('<dialog')
})

test('a button that asks first acts only on a yes, and takes along what was typed', async () => {
  const { view } = await openForm()
  const before = opened.told.length
  const press = [...view, ...filled, ['does', 'press side 0']] as const
  const asked = await visitor.does('mika', 'form', press)
  expect(asked).toContain('It raises the ceiling.')
  await visitor.does('mika', 'answer', [['answer', 'close']])
  expect(opened.told).toHaveLength(before)
  await visitor.does('mika', 'form', press)
  const after = await visitor.does('mika', 'answer', [['answer', 'yes']])
  expect(opened.told.at(-1)).toMatchObject({
    action: { action_id: 'side' },
    values: { k0: { k0: { value: 'a <b>' } } },
  })
  expect(after).toContain('a &lt;b&gt;')
  await visitor.does('mika', 'form', [...view, ['does', 'close']])
})

describe('what stands in a message can be pressed and chosen there', () => {
  const blocks = [
    { type: 'header', text: plain('Two rows') },
    {
      type: 'actions',
      block_id: 'row',
      elements: [
        { type: 'button', action_id: 'open', text: plain('Open Ada'), value: 'ada' },
        { type: 'button', action_id: 'open-too', text: plain('Open Ben'), value: 'ben' },
        { type: 'overflow', action_id: 'more', options },
      ],
    },
    {
      type: 'section',
      block_id: 'pick',
      text: plain('Which?'),
      accessory: { type: 'static_select', action_id: 'which', options },
    },
    {
      type: 'section',
      block_id: 'ticks',
      text: plain('Ticks'),
      accessory: { type: 'checkboxes', action_id: 'ticks', options },
    },
    { type: 'table', rows: [[{ type: 'raw_text', text: 'Day' }], [{ type: 'raw_text', text: '<1>' }]] },
    { type: 'image', image_url: 'https://b.example/x.png', alt_text: 'pain falling over two weeks' },
  ]
  const press = async (part: readonly (readonly [string, string])[]) => {
    const ts = opened.stage.as('mika').messages().at(-1)?.ts ?? ''
    return visitor.does('mika', 'press', [['channel', 'D1MIKA'], ['ts', ts], ...part])
  }

  beforeAll(async () => {
    await opened.app.client.chat.postMessage({ channel: 'U1MIKA', text: 'Rows', blocks: blocks as never })
  })

  test('it is read from top to bottom; pictures from elsewhere are said in words', async () => {
    const page = await visitor.look('mika')
    for (const words of [
      'Two rows',
      'Open Ada',
      'Which?',
      '&lt;1&gt;',
      'Picture: pain falling over two weeks',
    ])
      expect(page).toContain(words)
    expect(page).not.toContain('src="https://b.example')
  })

  test('a button of several', async () => {
    await press([
      ['block', 'row'],
      ['part', '1'],
    ])
    expect(opened.told.at(-1)).toMatchObject({ action: { action_id: 'open-too', value: 'ben' } })
  })

  test('a menu behind a button', async () => {
    await press([
      ['block', 'row'],
      ['part', '2'],
      ['choice', 'blue'],
    ])
    expect(opened.told.at(-1)).toMatchObject({
      action: { action_id: 'more', selected_option: { value: 'blue' } },
    })
  })

  test('a menu, and boxes to tick', async () => {
    await press([
      ['block', 'pick'],
      ['part', '0'],
      ['choice', 'red'],
    ])
    expect(opened.told.at(-1)).toMatchObject({
      action: { action_id: 'which', selected_option: { value: 'red' } },
    })
    await press([
      ['block', 'ticks'],
      ['part', '0'],
      ['choice', 'red'],
      ['choice', 'blue'],
    ])
    expect(opened.told.at(-1)).toMatchObject({
      action: { selected_options: [{ value: 'red' }, { value: 'blue' }] },
    })
  })

  test('what is not offered cannot be chosen', async () => {
    const page = await press([
      ['block', 'pick'],
      ['part', '0'],
      ['choice', 'mauve'],
    ])
    expect(page).toContain('&quot;mauve&quot; is none of what is offered')
  })
})
