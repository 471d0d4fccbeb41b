import { request } from 'node:http'
import { afterEach, expect, test } from 'vitest'
import { encoded } from '../../src/rehearsal/http-transport.ts'
import { sign, signatureHeaders } from '../../src/rehearsal/signing.ts'
import { openHttpBot, openStage, secrets, tidy } from './stage.ts'

afterEach(tidy)

test('the signature of the published worked example comes out', () => {
  const body =
    'token=xyzz0WbapA4vBCDEFasx0q6G&team_id=T1DC2JH3J&team_domain=testteamnow&channel_id=G8PSS9T3V' +
    '&channel_name=foobar&user_id=U2CERLKJA&user_name=roadrunner&command=%2Fwebhook-collect&text=' +
    '&response_url=https%3A%2F%2Fhooks.slack.com%2Fcommands%2FT1DC2JH3J%2F397700885554%2F96rGlfmibIGlgcZRskXaIFfN' +
    '&trigger_id=398738663015.47445629121.803a0bc887a14d10d2c447fce8b6703c'
  expect(sign(body, 1531420618, '8f742231b10e8888abcd99yyyzzz85a5')).toBe(
    'v0=a2114d57b48eac39b9ad189dd8316235a7b4a8d21a10bd27519666489c69b503',
  )
})

test('an old or a forged delivery is turned away by the framework; one from the future is not', async () => {
  const heard: string[] = []
  const stage = await openStage()
  await openHttpBot(stage, (app) => {
    app.event('team_join', async ({ body }) => {
      heard.push(body.event_id)
    })
  })
  const payload = {
    type: 'event_callback',
    event_id: 'Ev1',
    event: { type: 'team_join', user: { id: 'UADA' } },
  }
  const send = (signature: object) => stage.workspace.deliver({ kind: 'event', payload, signature })
  expect(await send({ offsetSeconds: -301 })).toMatchObject({ acknowledged: false, status: 401 })
  expect(await send({ secret: 'another' })).toMatchObject({ acknowledged: false, status: 401 })
  // The framework looks at staleness only; whoever wants the other side has to look for himself.
  expect(await send({ offsetSeconds: 301 })).toMatchObject({ acknowledged: true, status: 200 })
  expect(await send({})).toMatchObject({ acknowledged: true, status: 200 })
  await stage.workspace.quiet()
  expect(heard).toEqual(['Ev1', 'Ev1'])
})

test('unsigned and malformed requests can be made, and the app answers them without falling over', async () => {
  const stage = await openStage()
  await openHttpBot(stage, () => {})
  const json = { 'content-type': 'application/json' }
  expect((await stage.workspace.raw(json, '{}')).status).toBe(401)
  const broken = '{"type":'
  const signed = { ...json, ...signatureHeaders(broken, secrets.signingSecret) }
  expect((await stage.workspace.raw(signed, broken)).status).toBe(400)
  const challenge = JSON.stringify({ type: 'url_verification', challenge: 'three' })
  const asked = await stage.workspace.raw(
    { ...json, ...signatureHeaders(challenge, secrets.signingSecret) },
    challenge,
  )
  expect(JSON.parse(asked.body)).toEqual({ challenge: 'three' })
})

test('commands and interactions travel as forms, events as JSON', () => {
  expect(encoded({ kind: 'command', payload: { text: 'a & b' } })).toEqual({
    body: 'text=a+%26+b',
    contentType: 'application/x-www-form-urlencoded',
  })
  expect(encoded({ kind: 'interaction', payload: { type: 'view_closed' } }).body).toBe(
    'payload=%7B%22type%22%3A%22view_closed%22%7D',
  )
  expect(encoded({ kind: 'event', payload: { a: 1 } }).contentType).toBe('application/json')
})

test('the doors of the workspace open on loopback only', async () => {
  const { workspace } = await openStage()
  expect(new URL(workspace.apiUrl).hostname).toBe('127.0.0.1')
  const status = await new Promise((resolve, reject) => {
    request(new URL('/elsewhere', workspace.apiUrl), (response) => resolve(response.resume().statusCode))
      .on('error', reject)
      .end()
  })
  expect(status).toBe(404)
})
