import { signatureHeaders } from '../../src/rehearsal/signing.ts'
import { signingSecret } from './clinic.ts'

/** A request as somebody might send it who means no good, or whose software is broken. */
export type Hostile = {
  readonly what: string
  readonly headers: Record<string, string>
  readonly body: string | Buffer
}

const form = 'application/x-www-form-urlencoded'
const today = '2026-03-16'

/** An endless supply, the same for the same chance. */
export function* hostileRequests(random: () => number, stock: { readonly form: object }): Generator<Hostile> {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T
  const kinds = [forged, notAnObject, oddCommand, oddForm, oddPress, oddEvent, oddWrapping]
  for (let number = 0; ; number += 1) {
    if (number % 2500 === 1) yield huge()
    if (number % 500 === 2) yield deep()
    yield pick(kinds)()
  }

  function forged(): Hostile {
    const body = asForm(checkIn('U1MIKA', { athlete: 'mika', day: today }, {}))
    const faults = [
      () => ({}),
      () => signatureHeaders(body, 'f'.repeat(32)),
      () => signatureHeaders(body, signingSecret, { offsetSeconds: -301 - Math.floor(random() * 1e6) }),
      () => signatureHeaders(body, signingSecret, { offsetSeconds: 301 + Math.floor(random() * 1e6) }),
      () => ({
        ...signatureHeaders(body, signingSecret),
        'x-slack-signature': pick(['', 'v0=', `v0=${'0'.repeat(64)}`, `v1=${'a'.repeat(64)}`]),
      }),
      () => ({
        ...signatureHeaders(body, signingSecret),
        'x-slack-request-timestamp': pick(['', 'NaN', '-1', '1e99']),
      }),
      () => signatureHeaders(`${body}&more`, signingSecret),
    ]
    return { what: 'forged', headers: { 'content-type': form, ...pick(faults)() }, body }
  }

  function notAnObject(): Hostile {
    const text = pick([
      'null',
      'true',
      '17',
      '"text"',
      '[]',
      '[null]',
      '',
      '{',
      '{"type":',
      'undefined',
      '\u0000',
    ])
    return random() < 0.5
      ? signed('no object', text, 'application/json')
      : signed('no object', `${pick(['payload', '%70ayload', 'a=1&payload'])}=${encodeURIComponent(text)}`)
  }

  function oddCommand(): Hostile {
    const fields = new URLSearchParams({
      command: pick(['/checkin', '/today', '/session', '/cleared', '/unknown', '', '__proto__', junkText()]),
      user_id: pick(['U9NOBODY', 'U1MIKA', '', '__proto__', 'constructor', junkText()]),
      team_id: 'T1',
      text: junkText(),
      trigger_id: junkText(),
    })
    for (const name of ['user_id', 'team_id', 'command']) if (random() < 0.2) fields.append(name, junkText())
    if (random() < 0.2) fields.delete('user_id')
    return signed('odd command', fields.toString())
  }

  /** Every one is broken in what must be right: the day, the sender, or a required answer. */
  function oddForm(): Hostile {
    const broken = { [pick(['worstPain', 'morningPain', 'swelling', 'signs-always'])]: junk() }
    const [account, about, over] = pick([
      ['U1MIKA', { athlete: 'mika', day: '2020-01-01' }, {}],
      ['U2ADAEZE', { athlete: 'mika', day: today }, {}],
      ['U5IBEN', { athlete: 'mika', day: today }, {}],
      ['U9NOBODY', { athlete: 'mika', day: today }, {}],
      ['U1MIKA', { athlete: pick(['../clinic', 'clinic', '__proto__', '', junkText()]), day: today }, {}],
      ['U1MIKA', { athlete: 'mika', day: today }, broken],
    ] as const)
    const payload = checkIn(account, about, over) as Record<string, unknown>
    const view = payload.view as Record<string, unknown>
    const damage = [
      () => ({ ...payload, view: { ...view, state: junk() } }),
      () => ({ ...payload, view: { ...view, state: { values: junk() } } }),
      () => ({
        ...payload,
        view: { ...view, private_metadata: pick([junk(), junkText(), '{"__proto__":{"athlete":"mika"}}']) },
      }),
      () => ({
        ...payload,
        view: { ...view, callback_id: pick(['close-call', 'session', 'unknown', '__proto__', junk()]) },
      }),
      () => ({ ...payload, view: { ...view, blocks: junk() } }),
      () => ({ ...payload, view: junk() }),
      () => ({ ...payload, user: junk() }),
      () => ({
        ...payload,
        type: pick(['view_closed', 'view_submission', 'shortcut', 'block_suggestion', junk()]),
      }),
      () => payload,
    ]
    return signed('odd form', asForm(pick(damage)()))
  }

  function oddPress(): Hostile {
    const value = pick([
      undefined,
      junk(),
      junkText(),
      JSON.stringify({ athlete: 'mika', escalation: 'escalation/check-in/mika/2026-03-16' }),
      JSON.stringify({ athlete: '../clinic', escalation: { $ne: 1 } }),
      JSON.stringify({ athlete: 'mika' }),
    ])
    const action = {
      type: 'button',
      action_id: pick(['acknowledge', 'open-close', 'open-check-in', 'unknown', '__proto__']),
      value,
    }
    return signed(
      'odd press',
      asForm({
        ...interaction(
          pick(['block_actions', 'interactive_message', 'message_action']),
          pick(['U1MIKA', 'U9NOBODY', 'U5IBEN']),
        ),
        actions: pick<unknown>([[action], [], junk(), [junk()], [action, action]]),
        container: pick<unknown>([{ type: 'message' }, junk()]),
        channel: pick<unknown>([{ id: 'D1' }, junk()]),
      }),
    )
  }

  function oddEvent(): Hostile {
    const event = pick<unknown>([
      null,
      5,
      'text',
      [],
      junk(),
      { type: 'message', channel: junk(), user: junk(), text: junk() },
      { type: 'app_home_opened', user: junk() },
    ])
    const body = {
      type: 'event_callback',
      team_id: 'T1',
      event,
      event_id: junkText(),
      authorizations: junk(),
    }
    return signed('odd event', JSON.stringify(body), 'application/json')
  }

  function oddWrapping(): Hostile {
    const body = JSON.stringify(checkIn('U1MIKA', { athlete: 'mika', day: '2020-01-01' }, {}))
    const type = pick([
      'text/plain',
      'multipart/form-data; boundary=x',
      'application/json; charset=utf-16',
      `${form}; charset=utf-8`,
    ])
    return signed('odd wrapping', random() < 0.5 ? body : asForm({ payload: body }), type)
  }

  function huge(): Hostile {
    return signed('huge', `payload=${'x'.repeat(4_500_000)}`)
  }

  function deep(): Hostile {
    const depth = 20_000
    return signed(
      'deep',
      asForm({ type: 'view_submission', view: '@' }).replace(
        '%22%40%22',
        '%5B'.repeat(depth) + '%5D'.repeat(depth),
      ),
    )
  }

  function checkIn(account: string, about: object, over: object): object {
    const ordinary = {
      worstPain: { type: 'static_select', selected_option: { value: '0' } },
      morningPain: { type: 'static_select', selected_option: { value: '0' } },
      swelling: { type: 'radio_buttons', selected_option: { value: 'no' } },
      'signs-always': { type: 'checkboxes', selected_options: [{ value: 'none' }] },
      'signs-bone': { type: 'checkboxes', selected_options: [{ value: 'none' }] },
    }
    const values = Object.entries({ ...ordinary, ...over }).map(([name, answer]) => [
      name,
      { [name]: answer },
    ])
    const state = { values: Object.fromEntries(values) }
    const view = {
      ...stock.form,
      id: 'V1',
      team_id: 'T1',
      hash: '1.a',
      private_metadata: JSON.stringify(about),
      state,
    }
    return { ...interaction('view_submission', account), view, response_urls: [] }
  }

  function interaction(type: string, account: string): object {
    return {
      type,
      team: { id: 'T1', domain: 'd' },
      user: { id: account, team_id: 'T1' },
      api_app_id: 'A1',
      trigger_id: '1.2.3',
    }
  }

  function junk(): unknown {
    return pick([
      undefined,
      null,
      true,
      -1,
      1e308,
      '',
      junkText(),
      [],
      {},
      [[[]]],
      { value: junkText() },
      { selected_option: { value: junkText() } },
      { selected_options: [{ value: 'chest-pain' }, { value: 'none' }] },
      { selected_options: junkText() },
      JSON.parse('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}}}'),
    ])
  }

  function junkText(): string {
    return pick([
      'x',
      '__proto__',
      'constructor',
      '<!channel> &amp; <@U1>',
      '../../etc/passwd',
      "'; drop table charts; --",
      '\u202e\ud83d\ud800',
      '%00%ff',
      'A'.repeat(Math.floor(random() * 3000)),
      String(random() * 1e9),
    ])
  }
}

function asForm(payload: object): string {
  return new URLSearchParams({ payload: JSON.stringify(payload) }).toString()
}

function signed(what: string, body: string, contentType = form): Hostile {
  return { what, headers: { 'content-type': contentType, ...signatureHeaders(body, signingSecret) }, body }
}
