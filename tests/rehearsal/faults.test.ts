import { WebClient } from '@slack/web-api'
import { afterEach, expect, test } from 'vitest'
import { openClient, openStage, quietLogger, refusalOf, secrets, tidy } from './stage.ts'

afterEach(tidy)

test('a lost reply leaves the message posted and the caller without an answer, so often as asked', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.faults.loseReply({ method: 'chat.postMessage', times: 1 })
  await expect(client.chat.postMessage({ channel: 'UADA', text: 'once' })).rejects.toThrow()
  expect(stage.ada.messages().map((m) => m.text)).toEqual(['once'])
  expect(stage.workspace.calls).toMatchObject([{ outcome: 'ok', lost: true }])
  expect(stage.workspace.faults.counts.lost).toBe(1)
  expect(await client.chat.postMessage({ channel: 'UADA', text: 'again' })).toMatchObject({ ok: true })
})

test('a client that tries again by itself after a lost reply posts twice', async () => {
  const stage = await openStage()
  stage.workspace.faults.loseReply({ method: 'chat.postMessage', times: 1 })
  const client = new WebClient(secrets.botToken, {
    slackApiUrl: stage.workspace.apiUrl,
    logger: quietLogger,
    retryConfig: { retries: 1, minTimeout: 10, maxTimeout: 10 },
  })
  await client.chat.postMessage({ channel: 'UADA', text: 'call' })
  expect(stage.ada.messages().map((m) => m.text)).toEqual(['call', 'call'])
})

test('during an outage nothing is done, and afterwards everything is as before', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.faults.outage(true)
  await expect(client.chat.postMessage({ channel: 'UADA', text: 'a' })).rejects.toMatchObject({
    statusCode: 503,
  })
  stage.workspace.faults.outage(false)
  expect(stage.ada.messages()).toEqual([])
  expect(await client.chat.postMessage({ channel: 'UADA', text: 'b' })).toMatchObject({ ok: true })
  expect(stage.workspace.faults.counts.outage).toBe(1)
})

test('a slow workspace has done its work long before it answers', async () => {
  const stage = await openStage()
  const client = new WebClient(secrets.botToken, {
    slackApiUrl: stage.workspace.apiUrl,
    logger: quietLogger,
    retryConfig: { retries: 0 },
    timeout: 100,
  })
  stage.workspace.faults.slow(400)
  await expect(client.chat.postMessage({ channel: 'UADA', text: 'late' })).rejects.toThrow()
  expect(stage.ada.messages().map((m) => m.text)).toEqual(['late'])
  await stage.workspace.quiet()
})

test('a method can be made to refuse so often as asked', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.faults.refuse({ method: 'chat.postMessage', error: 'fatal_error', times: 2 })
  const post = () => refusalOf(client.chat.postMessage({ channel: 'UADA', text: 'a' }))
  expect([await post(), await post(), await post()]).toEqual(['fatal_error', 'fatal_error', 'not refused'])
  expect(stage.ada.messages()).toHaveLength(1)
})

test('a method is limited by its tier, and let in again when the minute has passed on the clock', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  for (let i = 0; i < 20; i++) await client.users.list({})
  await expect(client.users.list({})).rejects.toMatchObject({ retryAfter: 60 })
  stage.clock.pushBy({ seconds: 59 })
  await expect(client.users.list({})).rejects.toMatchObject({ retryAfter: 1 })
  stage.clock.pushBy({ seconds: 1 })
  expect(await client.users.list({})).toMatchObject({ ok: true })
  expect(stage.workspace.faults.counts.limited).toBe(2)
})

test('a channel takes a short burst of messages and then one a second, while others are not held up', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const post = (channel: string) => client.chat.postMessage({ channel, text: 'a' })
  for (let i = 0; i < 5; i++) await post('UADA')
  await expect(post('UADA')).rejects.toMatchObject({ retryAfter: 1 })
  expect(await post('UBEN')).toMatchObject({ ok: true })
  stage.clock.pushBy({ seconds: 1 })
  expect(await post('UADA')).toMatchObject({ ok: true })
  await expect(post('UADA')).rejects.toMatchObject({ retryAfter: 1 })
  stage.workspace.faults.rateLimits(false)
  expect(await post('UADA')).toMatchObject({ ok: true })
})
