import { App, LogLevel } from '@slack/bolt'
import { cast, coachesChannel } from '../../../src/rehearsal/cast.ts'
import { pushedClock } from '../../../src/rehearsal/clock.ts'
import { openStage } from '../../../src/rehearsal/stage.ts'
import { openWorkspace } from '../../../src/rehearsal/workspace.ts'
import { quietLogger } from '../stage.ts'

const signingSecret = '00112233445566778899aabbccddeeff'
const botToken = 'xoxb-kinds'

export const plain = (text: string) => ({ type: 'plain_text', text }) as const
export const options = ['red', 'green', 'blue'].map((value) => ({ value, text: plain(`The ${value} one`) }))
const confirm = {
  title: plain('Really?'),
  text: plain('It raises the ceiling.'),
  confirm: plain('Raise it'),
  deny: plain('Keep it'),
}

/** Every kind of question, with what is posted for it and what the app is to be told. */
export const kinds = [
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

export type Told = { readonly action?: unknown; readonly values?: unknown }

/** A small app with one form that asks every kind of question, and all that it is told. */
export async function openKinds() {
  const told: Told[] = []
  const clock = pushedClock('2026-03-16T06:30:00.000Z')
  const workspace = await openWorkspace({ signingSecret, botToken, clock })
  for (const { account, name, timeZone } of cast) workspace.people.add({ id: account, name, timeZone })
  workspace.channels.add({ ...coachesChannel, members: ['U4NOOR'] })
  const app = new App({
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
  return { app, told, stage: openStage(workspace, clock, bot, () => {}) }
}
