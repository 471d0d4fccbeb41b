import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterEach, expect, test } from 'vitest'
import { openHttpBot, openStage, type Stage, tidy } from './stage.ts'

afterEach(tidy)

type Answer = { readonly status: number; readonly headers?: Record<string, string> }

/** An app that answers every delivery as it is told to, and remembers which attempt it was. */
async function openEar(stage: Stage, answer: () => Answer) {
  const heard: string[] = []
  const server = createServer((request, response) => {
    const { 'x-slack-retry-num': number = '0', 'x-slack-retry-reason': reason = 'first' } = request.headers
    heard.push(`${number} ${reason}`)
    const { status, headers } = answer()
    request.resume().on('end', () => response.writeHead(status, headers).end())
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  stage.workspace.deliverTo({ http: `http://127.0.0.1:${(server.address() as AddressInfo).port}/` })
  return { heard, close: () => new Promise((resolve) => server.close(resolve)) }
}

test('a message in the direct messages reaches an app that may read them, and no other', async () => {
  for (const [scopes, times] of [
    [['chat:write', 'im:history'], 1],
    [['chat:write'], 0],
  ] as const) {
    const stage = await openStage({ scopes: [...scopes] })
    const ear = await openEar(stage, () => ({ status: 200 }))
    await stage.ada.say('hello')
    await stage.workspace.quiet()
    expect(ear.heard).toHaveLength(times)
    await ear.close()
  }
})

test('an event nobody acknowledges is told again at once, after one minute and after five, and then no more', async () => {
  const stage = await openStage()
  const { workspace, clock } = stage
  const ear = await openEar(stage, () => ({ status: 500 }))
  expect(await workspace.event('team_join', { user: { id: 'UADA' } })).toMatchObject({ acknowledged: false })
  await workspace.quiet()
  expect(ear.heard).toEqual(['0 first', '1 http_error'])
  clock.pushBy({ seconds: 59 })
  await workspace.quiet()
  expect(ear.heard).toHaveLength(2)
  clock.pushBy({ seconds: 1 })
  await workspace.quiet()
  expect(ear.heard).toHaveLength(3)
  clock.pushBy({ minutes: 3, seconds: 59 })
  await workspace.quiet()
  expect(ear.heard).toHaveLength(3)
  clock.pushBy({ seconds: 1 })
  await workspace.quiet()
  clock.pushBy({ hours: 1 })
  await workspace.quiet()
  expect(ear.heard).toEqual(['0 first', '1 http_error', '2 http_error', '3 http_error'])
  await ear.close()
})

test('an app that refuses retries is not told again, and one that comes back hears of it once', async () => {
  const stage = await openStage()
  const { workspace } = stage
  const answers: Answer[] = [
    { status: 500, headers: { 'x-slack-no-retry': '1' } },
    { status: 500 },
    { status: 200 },
  ]
  const ear = await openEar(stage, () => answers.shift() ?? { status: 200 })
  await workspace.event('team_join')
  await workspace.quiet()
  expect(ear.heard).toEqual(['0 first'])
  await workspace.event('team_join')
  await workspace.quiet()
  expect(ear.heard.slice(1)).toEqual(['0 first', '1 http_error'])
  await ear.close()
})

test('a retry reaches the framework as one, with the same event id', async () => {
  const stage = await openStage()
  const { workspace, clock } = stage
  const seen: unknown[] = []
  await workspace.event('team_join', { user: { id: 'UADA' } })
  await workspace.quiet()
  await openHttpBot(stage, (app) => {
    app.event('team_join', async ({ context, body }) => {
      seen.push([context.retryNum, context.retryReason, body.event_id])
    })
  })
  clock.pushBy({ minutes: 1 })
  await workspace.quiet()
  expect(seen).toEqual([[2, 'connection_failed', expect.stringMatching(/^Ev/)]])
})

test('commands are never told again', async () => {
  const stage = await openStage()
  const ear = await openEar(stage, () => ({ status: 500 }))
  const came = await stage.ada.command('/morning')
  expect(came.complaint).toBe('/morning did not respond: it answered 500.')
  stage.clock.pushBy({ minutes: 10 })
  await stage.workspace.quiet()
  expect(ear.heard).toEqual(['0 first'])
  await ear.close()
})
