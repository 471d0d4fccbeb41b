import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, expect, test } from 'vitest'
import { WebSocket } from 'ws'
import { openClient, openStage, type Stage, secrets, tidy } from './stage.ts'

afterEach(tidy)

/** An app that answers in its own good time: as many milliseconds as the command's text says. */
async function listenOverHttp(stage: Stage): Promise<void> {
  const server = createServer(async (request, response) => {
    let body = ''
    for await (const part of request) body += part
    await pause(Number(new URLSearchParams(body).get('text')))
    response.end()
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  server.unref()
  stage.workspace.deliverTo({ http: `http://127.0.0.1:${(server.address() as AddressInfo).port}/` })
}

async function listenOverSocket(stage: Stage): Promise<void> {
  const { url = '' } = await openClient(stage, secrets.appToken).apps.connections.open({})
  const socket = new WebSocket(url)
  stage.workspace.deliverTo({ socket: true })
  await new Promise<void>((resolve) =>
    socket.on('message', async (text) => {
      const envelope = JSON.parse(String(text))
      if (envelope.type === 'hello') return resolve()
      await pause(Number(envelope.payload.text))
      if (socket.readyState === socket.OPEN)
        socket.send(JSON.stringify({ envelope_id: envelope.envelope_id }))
    }),
  )
}

test.each([
  ['HTTP', listenOverHttp],
  ['the socket', listenOverSocket],
])('an answer over %s after two seconds counts, one after four does not', async (_, listen) => {
  const stage = await openStage()
  await listen(stage)
  const [inTime, late] = await Promise.all([
    stage.ada.command('/morning', '2000'),
    stage.ada.command('/morning', '4000'),
  ])
  expect(inTime).toMatchObject({ acknowledged: true, status: 200 })
  expect(inTime.complaint).toBeUndefined()
  expect(late).toMatchObject({
    acknowledged: false,
    complaint: '/morning did not respond within three seconds.',
  })
})
