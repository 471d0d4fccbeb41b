import { afterEach, expect, test, vi } from 'vitest'
import { WebSocket } from 'ws'
import { form } from './samples.ts'
import { openClient, openSocketBot, openStage, type Stage, secrets, tidy } from './stage.ts'

afterEach(tidy)

/** A bare connection that says what it hears and acknowledges only when told to. */
async function connect(stage: Stage) {
  const { url = '' } = await openClient(stage, secrets.appToken).apps.connections.open({})
  const socket = new WebSocket(url)
  const heard: { type: string; envelope_id: string; [field: string]: unknown }[] = []
  socket.on('message', (text) => heard.push(JSON.parse(String(text))))
  await vi.waitUntil(() => heard[0]?.type === 'hello')
  return {
    url,
    socket,
    heard,
    ack: (id = '', payload = {}) => socket.send(JSON.stringify({ envelope_id: id, payload })),
  }
}

test('a command, a form with its errors and an event go through the socket as through the door', async () => {
  const stage = await openStage()
  const joined: string[] = []
  await openSocketBot(stage, (app) => {
    app.command('/morning', async ({ ack, client, body }) => {
      await client.views.open({ trigger_id: body.trigger_id, view: form })
      await ack('Here it is.')
    })
    app.view('morning', async ({ ack, view }) =>
      view.state.values.pain?.number?.value === '9'
        ? ack({ response_action: 'errors', errors: { pain: 'Call now.' } })
        : ack(),
    )
    app.event('team_join', async ({ body }) => {
      joined.push(body.event_id)
    })
  })
  const asked = await stage.ada.command('/morning')
  expect(asked).toMatchObject({
    acknowledged: true,
    reply: { text: 'Here it is.' },
    modal: { title: 'Morning' },
  })
  stage.ada.fill('Pain', 9)
  stage.ada.fill('Sleep', 'Well')
  expect(await stage.ada.submit()).toMatchObject({ closed: false, errors: { pain: 'Call now.' } })
  stage.ada.fill('Pain', 2)
  expect(await stage.ada.submit()).toMatchObject({ closed: true })
  await stage.workspace.event('team_join', { user: { id: 'UADA' } })
  await stage.workspace.quiet()
  expect(joined).toHaveLength(1)
})

test('nobody answering on the socket is reported to the person after three seconds', async () => {
  const stage = await openStage()
  await openSocketBot(stage, () => {})
  const came = await stage.ada.command('/nobody')
  expect(came).toMatchObject({
    acknowledged: false,
    complaint: '/nobody did not respond within three seconds.',
  })
})

test('of several connections exactly one gets each envelope, and only its own acknowledgement counts', async () => {
  const stage = await openStage()
  stage.workspace.deliverTo({ socket: true })
  const [one, two] = [await connect(stage), await connect(stage)]
  expect(stage.workspace.socket.connections()).toBe(2)
  const first = stage.ada.command('/a')
  const second = stage.ada.command('/b')
  const got = (ear: typeof one) => ear.heard.filter((envelope) => envelope.type === 'slash_commands')
  await vi.waitUntil(() => got(one).length + got(two).length === 2)
  expect([got(one).length, got(two).length]).toEqual([1, 1])
  const [mine] = got(one)
  two.ack(mine?.envelope_id, { text: 'not mine' })
  one.ack(mine?.envelope_id, { text: 'mine' })
  two.ack(got(two)[0]?.envelope_id)
  expect((await first).reply?.text ?? (await second).reply?.text).toBe('mine')
})

test('a connection that breaks before it acknowledged an event passes it on to another', async () => {
  const stage = await openStage()
  stage.workspace.deliverTo({ socket: true })
  const one = await connect(stage)
  const told = stage.workspace.event('team_join')
  await vi.waitUntil(() => one.heard.length === 2)
  const two = await connect(stage)
  one.socket.terminate()
  expect(await told).toMatchObject({ acknowledged: false, reason: 'connection_failed' })
  await vi.waitUntil(() => two.heard.length === 2)
  expect(two.heard[1]).toMatchObject({
    type: 'events_api',
    retry_attempt: 1,
    retry_reason: 'connection_failed',
  })
  two.ack(two.heard[1]?.envelope_id)
  await stage.workspace.quiet()
})

test('an address for a connection is good once, and the eleventh connection is sent away', async () => {
  const stage = await openStage()
  stage.workspace.faults.rateLimits(false)
  const { url } = await connect(stage)
  const again = new WebSocket(url)
  await new Promise((resolve) => again.on('error', resolve))
  for (let i = 0; i < 9; i++) await connect(stage)
  const { url: last = '' } = await openClient(stage, secrets.appToken).apps.connections.open({})
  const words = await new Promise((resolve) =>
    new WebSocket(last).on('message', (text) => resolve(JSON.parse(String(text)))),
  )
  expect(words).toMatchObject({ type: 'disconnect', reason: 'too_many_websockets' })
})

test.each(['warning', 'refresh_requested'] as const)(
  'after a %s the framework comes back by itself and hears commands again',
  async (reason) => {
    const stage = await openStage()
    await openSocketBot(stage, (app) => {
      app.command('/today', async ({ ack }) => ack('Still here.'))
    })
    stage.workspace.socket.disconnect(reason)
    expect(stage.workspace.socket.connections()).toBe(0)
    expect((await stage.ada.command('/today')).complaint).toContain('nobody is listening')
    await vi.waitUntil(() => stage.workspace.socket.connections() === 1, { timeout: 8000 })
    expect((await stage.ada.command('/today')).reply?.text).toBe('Still here.')
  },
)
