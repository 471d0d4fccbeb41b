import { randomBytes } from 'node:crypto'
import type { Modal } from '../slack/blocks.ts'

type Element = {
  readonly type: string
  readonly min_value?: string
  readonly options?: readonly { readonly value: string }[]
}
type Input = {
  readonly type: string
  readonly block_id: string
  readonly optional?: boolean
  readonly element: Element
}

const team = { id: 'T0LOOPBACK', domain: 'loopback' }

/** The tick of an ordinary morning: no pain at all. */
const ordinary = { noPain: 'yes' }

/**
 * A form with every required field at its first, harmless answer, as the platform sends it in for an account; `ticks`
 * are boxes that are ticked besides or instead, by field.
 */
export function submissionOf(
  form: Modal,
  account: string,
  about: object,
  ticks: Readonly<Record<string, string>> = {},
): string {
  const ticked: Readonly<Record<string, string>> = { ...ordinary, ...ticks }
  const inputs = (form.blocks as readonly unknown[] as readonly Input[]).filter(
    (block) => block.type === 'input' && (!block.optional || block.block_id in ticked),
  )
  const values = inputs.map(({ block_id, element }) => [
    block_id,
    { [block_id]: { type: element.type, ...filled(element, ticked[block_id]) } },
  ])
  const view = {
    ...form,
    id: `V0${randomBytes(6).toString('hex').toUpperCase()}`,
    team_id: team.id,
    private_metadata: JSON.stringify(about),
    state: { values: Object.fromEntries(values) },
    hash: '1.abc',
  }
  return bodyOf('view_submission', account, { view, response_urls: [] })
}

/** A press of one button in a message. */
export function pressOf(action: string, account: string, value: object, responseUrl: string): string {
  const pressed = {
    type: 'button',
    action_id: action,
    block_id: 'b',
    value: JSON.stringify(value),
    action_ts: '1.1',
  }
  return bodyOf('block_actions', account, {
    actions: [pressed],
    container: { type: 'message', message_ts: '1.1', channel_id: 'D0' },
    channel: { id: 'D0', name: 'directmessage' },
    response_url: responseUrl,
    state: { values: {} },
  })
}

export function commandOf(command: string, account: string, responseUrl: string): string {
  return new URLSearchParams({
    command,
    text: '',
    user_id: account,
    user_name: account,
    team_id: team.id,
    team_domain: team.domain,
    channel_id: 'D0',
    channel_name: 'directmessage',
    api_app_id: 'A0LOOPBACK',
    response_url: responseUrl,
    trigger_id: '1.2.3',
  }).toString()
}

function bodyOf(type: string, account: string, rest: object): string {
  const payload = {
    type,
    team,
    user: { id: account, username: account, name: account, team_id: team.id },
    api_app_id: 'A0LOOPBACK',
    token: 'not-relied-on',
    trigger_id: '1.2.3',
    enterprise: null,
    is_enterprise_install: false,
    ...rest,
  }
  return new URLSearchParams({ payload: JSON.stringify(payload) }).toString()
}

function filled({ type, options = [], min_value = '0' }: Element, tick?: string): object {
  if (tick) return { selected_options: [{ value: tick }] }
  if (type === 'number_input') return { value: min_value }
  if (type === 'plain_text_input') return { value: 'as agreed' }
  return type === 'checkboxes' ? { selected_options: options.slice(0, 1) } : { selected_option: options[0] }
}
