import { App, LogLevel } from '@slack/bolt'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { cast, coachesChannel } from '../../../src/rehearsal/cast.ts'
import { pushedClock } from '../../../src/rehearsal/clock.ts'
import { openStage, type Stage } from '../../../src/rehearsal/stage.ts'
import { openWorkspace } from '../../../src/rehearsal/workspace.ts'
import { quietLogger } from '../stage.ts'
import { openVisitor, type Visitor } from './visitor.ts'

const signingSecret = '00112233445566778899aabbccddeeff'
const botToken = 'xoxb-kinds'
let stage: Stage
let visitor: Visitor
let app: App
const told: { readonly action?: unknown; readonly values?: unknown }[] = []

const plain = (text: string) => ({ type: 'plain_text', text }) as const
const options = ['red', 'green', 'blue'].map((value) => ({ value, text: plain(`The ${value} one`) }))
const confirm = {
  title: plain('Really?'),
  text: plain('It raises the ceiling.'),
  confirm: plain('Raise it'),
  deny: plain('Keep it'),
}

/** Every kind of question, with what is posted for it and what the app is to be told. */
const kinds = [
  { type: 'plain_text_input', posted: ['a <b>'], told: { value: 'a <b>' } },
  {
    type: 'plain_text_input',
    more: { multiline: true },
    posted: ['one\r\ntwo'],
    told: { value: 'one\ntwo' },
  },
  { type: 'number_input', more: { is_decimal_allowed: true }, posted: ['2.5'], told: { value: '2.5' } },
  { type: 'email_text_input', posted: ['a@b.example'], told: { value: 'a@b.example' } },
  { type: 'url_text_input', posted: ['https://b.example/'], told: { value: 'https://b.example/' } },
  { type: 'static_select', more: { options }, posted: ['green'], told: { selected_option: options[1] } },
  {
    type: 'static_select',
    more: { option_groups: [{ label: plain('Warm'), options }] },
    posted: ['red'],
    told: { selected_option: options[0] },
  },
  {
    type: 'multi_static_select',
    more: { options },
    posted: ['red', 'blue'],
    told: { selected_options: [options[0], options[2]] },
  },
  { type: 'radio_buttons', more: { options }, posted: ['blue'], told: { selected_option: options[2] } },
  { type: 'checkboxes', more: { options }, posted: ['red'], told: { selected_options: [options[0]] } },
  { type: 'users_select', posted: ['U5IBEN'], told: { selected_user: 'U5IBEN' } },
  {
    type: 'multi_users_select',
    posted: ['U5IBEN', 'U6RAVI'],
    told: { selected_users: ['U5IBEN', 'U6RAVI'] },
  },
  { type: 'channels_select', posted: ['C1COACHES'], told: { selected_channel: 'C1COACHES' } },
  { type: 'conversations_select', posted: ['C1COACHES'], told: { selected_conversation: 'C1COACHES' } },
  { type: 'datepicker', posted: ['2026-03-20'], told: { selected_date: '2026-03-20' } },
  { type: 'timepicker', posted: ['06:45'], told: { selected_time: '06:45' } },
  // Half past six in Lisbon after the clocks went forward is half past five in UTC.
  { type: 'datetimepicker', posted: ['2026-04-01T06:30'], told: { selected_date_time: 1775021400 } },
  {
    type: 'rich_text_input',
    posted: ['so so'],
    told: {
      rich_text_value: {
        type: 'rich_text',
        elements: [{ type: 'rich_text_section', elements: [{ type: 'text', text: 'so so' }] }],
      },
    },
  },
] as const

beforeAll(async () => {
  const clock = pushedClock('2026-03-16T06:30:00.000Z')
  const workspace = await openWorkspace({ signingSecret, botToken, clock })
  for (const { account, name, timeZone } of cast) workspace.people.add({ id: account, name, timeZone })
  workspace.channels.add({ ...coachesChannel, members: ['U4NOOR'] })
  app = new App({
    token: botToken,
    signingSecret,
    logger: quietLogger,
    logLevel: LogLevel.ERROR,
    clientOptions: { slackApiUrl: workspace.apiUrl },
  })
  app.action(/./, async ({ ack, action, body }) => {
    await ack()
    told.push({ action, values: (body as { view?: { state: { values: unknown } } }).view?.state.values })
  })
  app.view('kinds', async ({ ack, view }) => {
    await ack()
    told.push({ values: view.state.values })
  })
  app.command('/kinds', async ({ ack, client, body }) => {
    await ack()
    const blocks = [
      ...kinds.map((kind, i) => ({
        type: 'input',
        block_id: `k${i}`,
        label: plain(`Question ${i}`),
        element: { type: kind.type, action_id: `k${i}`, ...('more' in kind && kind.more) },
      })),
      {
        type: 'actions',
        block_id: 'side',
        elements: [{ type: 'button', action_id: 'side', text: plain('Aside'), confirm }],
      },
    ]
    const view = { type: 'modal', callback_id: 'kinds', title: plain('Kinds'), submit: plain('Go'), blocks }
    await client.views.open({ trigger_id: body.trigger_id, view: view as never })
  })
  const server = await app.start({ port: 0, host: '127.0.0.1' })
  const { port } = (server as { address(): { port: number } }).address()
  workspace.deliverTo({ http: `http://127.0.0.1:${port}/slack/events` })
  // This bot does nothing by itself: only what it is told matters here.
  const nothing = async () => {}
  const none = async () => []
  const bot = {
    round: nothing,
    idle: nothing,
    nextWake: async () => null,
    ringing: none,
    submit: nothing,
    restart: nothing,
  }
  stage = openStage(workspace, clock, bot, () => {})
  visitor = await openVisitor(stage)
})

afterAll(async () => {
  await visitor.page.close()
  await app.stop()
  await stage.workspace.close()
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
  const values = told.at(-1)?.values as Record<string, Record<string, object>>
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
  const before = told.length
  const press = [...view, ...filled, ['does', 'press side 0']] as const
  const asked = await visitor.does('mika', 'form', press)
  expect(asked).toContain('It raises the ceiling.')
  await visitor.does('mika', 'answer', [['answer', 'close']])
  expect(told).toHaveLength(before)
  await visitor.does('mika', 'form', press)
  const after = await visitor.does('mika', 'answer', [['answer', 'yes']])
  expect(told.at(-1)).toMatchObject({
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
    const ts = stage.as('mika').messages().at(-1)?.ts ?? ''
    return visitor.does('mika', 'press', [['channel', 'D1MIKA'], ['ts', ts], ...part])
  }

  beforeAll(async () => {
    await app.client.chat.postMessage({ channel: 'U1MIKA', text: 'Rows', blocks: blocks as never })
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
    expect(told.at(-1)).toMatchObject({ action: { action_id: 'open-too', value: 'ben' } })
  })

  test('a menu behind a button', async () => {
    await press([
      ['block', 'row'],
      ['part', '2'],
      ['choice', 'blue'],
    ])
    expect(told.at(-1)).toMatchObject({ action: { action_id: 'more', selected_option: { value: 'blue' } } })
  })

  test('a menu, and boxes to tick', async () => {
    await press([
      ['block', 'pick'],
      ['part', '0'],
      ['choice', 'red'],
    ])
    expect(told.at(-1)).toMatchObject({ action: { action_id: 'which', selected_option: { value: 'red' } } })
    await press([
      ['block', 'ticks'],
      ['part', '0'],
      ['choice', 'red'],
      ['choice', 'blue'],
    ])
    expect(told.at(-1)).toMatchObject({ action: { selected_options: [{ value: 'red' }, { value: 'blue' }] } })
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
