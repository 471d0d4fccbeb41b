import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { answerCall } from './api-door.ts'
import { stored, takeUpload } from './api-files.ts'
import { type Reply, takeReply } from './late-replies.ts'
import { argumentsOf, bodyOf, objectIn } from './requests.ts'
import type { World } from './world.ts'

/** The workspace's own doors: the Web API and response addresses. Binds to loopback only. */
export async function openServer(world: World, port: number): Promise<Server & { readonly port: number }> {
  const server = createServer((request, response) => {
    world.traffic
      .track(`call ${request.url}`, () => answer(world, request, response))
      .catch((fault) => {
        response.destroy()
        // A caller that went away in mid-sentence is no fault of ours.
        if (!request.errored) world.traffic.broke(fault)
      })
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, '127.0.0.1', resolve)
  })
  return Object.assign(server, {
    port: (server.address() as AddressInfo).port,
  })
}

async function answer(world: World, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const url = new URL(request.url ?? '/', world.origin())
  const [, door, name = ''] = url.pathname.split('/')
  const body = await bodyOf(request)
  if (door === 'api') return call(world, name, url, request, response, body)
  if (world.faults.standing.outage) {
    world.faults.count('outage')
    response.writeHead(503).end()
    return
  }
  if (door === 'reply' && request.method === 'POST') {
    const reply = takeReply(world, name, objectIn(body.toString()) as Reply)
    response.writeHead(reply.status, { 'content-type': 'text/plain' }).end(reply.body)
    return
  }
  const contentType = request.headers['content-type'] ?? ''
  if (door === 'upload' && request.method === 'POST') {
    const taken = await takeUpload(world, name, contentType, body)
    response.writeHead(taken.status, { 'content-type': 'text/plain' }).end(taken.body)
    return
  }
  const file = door === 'files' ? stored(world, name, bearerOf(request)) : undefined
  if (file?.bytes) response.writeHead(200).end(file.bytes)
  else response.writeHead(404).end('nothing is here')
}

async function call(
  world: World,
  method: string,
  url: URL,
  request: IncomingMessage,
  response: ServerResponse,
  body: Buffer,
): Promise<void> {
  const raw = argumentsOf(url, request.headers['content-type'] ?? '', body)
  const token = bearerOf(request) ?? raw.token
  const wire = await answerCall(world, {
    method,
    raw,
    ...(token && { token }),
  })
  if (wire.lost) {
    request.socket.destroy()
    return
  }
  response.writeHead(wire.status, {
    'content-type': 'application/json; charset=utf-8',
    ...wire.headers,
  })
  response.end(JSON.stringify(wire.body))
}

function bearerOf(request: IncomingMessage): string | undefined {
  return /^Bearer (.+)$/.exec(request.headers.authorization ?? '')?.[1]
}
