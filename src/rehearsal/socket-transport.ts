import { randomBytes } from 'node:crypto'
import type { IncomingMessage, Server } from 'node:http'
import type { Duplex } from 'node:stream'
import { type WebSocket, WebSocketServer } from 'ws'
import { type Acknowledgement, acknowledgeWithinMs, type Envelope, type Transport } from './deliveries.ts'
import { objectIn } from './requests.ts'

const maxConnections = 10
const pingEveryMs = 5000
/** How long a connection lives on after it was told to go. */
const leaveWithinMs = 10_000

export type DisconnectReason = 'warning' | 'refresh_requested' | 'link_disabled'

export type SocketTransport = Transport & {
  /** An address for one connection; the ticket in it is good once. */
  url(): string
  connections(): number
  /** Tells every connection to go, as the platform does when it moves house. They get nothing more. */
  disconnect(reason: DisconnectReason): void
  close(): void
}

const kinds = { command: 'slash_commands', interaction: 'interactive', event: 'events_api' } as const

type Connection = { readonly socket: WebSocket; leaving: boolean; readonly waiting: Map<string, Settle> }
type Settle = (how: Acknowledgement) => void

/** Socket Mode: the app connects to us, and each envelope goes to exactly one of its connections. */
export function openSocketTransport(server: Server, origin: () => string, appId: string): SocketTransport {
  const sockets = new WebSocketServer({ noServer: true })
  const tickets = new Set<string>()
  const connections: Connection[] = []
  const admit = (socket: WebSocket) => {
    if (connections.length >= maxConnections) return leave(socket, 'too_many_websockets')
    const connection: Connection = { socket, leaving: false, waiting: new Map() }
    connections.push(connection)
    const pings = setInterval(() => socket.ping(), pingEveryMs).unref()
    socket.on('message', (text) => hear(connection, String(text)))
    socket.on('error', () => socket.terminate())
    socket.on('close', () => {
      clearInterval(pings)
      connections.splice(connections.indexOf(connection), 1)
      for (const settle of connection.waiting.values())
        settle({ acknowledged: false, status: 0, reason: 'connection_failed' })
    })
    socket.send(
      JSON.stringify({
        type: 'hello',
        num_connections: connections.length,
        connection_info: { app_id: appId },
      }),
    )
  }
  const upgrade = (request: IncomingMessage, duplex: Duplex, head: Buffer) => {
    const url = new URL(request.url ?? '/', origin())
    const good = url.pathname === '/link' && tickets.delete(url.searchParams.get('ticket') ?? '')
    if (good) sockets.handleUpgrade(request, duplex, head, admit)
    else duplex.end('HTTP/1.1 403 Forbidden\r\nconnection: close\r\n\r\n')
  }
  server.on('upgrade', upgrade)
  let turn = 0
  return {
    url() {
      const ticket = randomBytes(12).toString('hex')
      tickets.add(ticket)
      return `${origin().replace('http', 'ws')}/link?ticket=${ticket}&app_id=${appId}`
    },
    connections: () => connections.filter((connection) => !connection.leaving).length,
    async send(envelope) {
      const open = connections.filter(({ leaving, socket }) => !leaving && socket.readyState === socket.OPEN)
      const chosen = open[turn++ % Math.max(1, open.length)]
      return chosen
        ? handOver(chosen, envelope)
        : { acknowledged: false, status: 0, reason: 'connection_failed' }
    },
    disconnect(reason) {
      for (const connection of connections) {
        connection.leaving = true
        leave(connection.socket, reason)
      }
    },
    close() {
      server.off('upgrade', upgrade)
      for (const socket of sockets.clients) socket.terminate()
      sockets.close()
    },
  }
}

function handOver(connection: Connection, envelope: Envelope): Promise<Acknowledgement> {
  const id = randomBytes(16).toString('hex')
  return new Promise((resolve) => {
    const settle: Settle = (how) => {
      clearTimeout(timer)
      connection.waiting.delete(id)
      resolve(how)
    }
    const late: Acknowledgement = { acknowledged: false, status: 0, reason: 'http_timeout' }
    const timer = setTimeout(() => settle(late), acknowledgeWithinMs)
    connection.waiting.set(id, settle)
    connection.socket.send(
      JSON.stringify({
        envelope_id: id,
        type: kinds[envelope.kind],
        payload: envelope.payload,
        accepts_response_payload: envelope.kind !== 'event',
        ...(envelope.kind === 'event' && {
          retry_attempt: envelope.retry?.number ?? 0,
          retry_reason: envelope.retry?.reason ?? '',
        }),
      }),
    )
  })
}

/** An acknowledgement counts only on the connection that got the envelope, and once. */
function hear(connection: Connection, text: string): void {
  const { envelope_id: id, payload } = objectIn(text)
  const settle = connection.waiting.get(String(id))
  const empty = typeof payload !== 'object' || payload === null || Object.keys(payload).length === 0
  settle?.({ acknowledged: true, status: 200, ...(!empty && { answer: payload }) })
}

function leave(socket: WebSocket, reason: string): void {
  socket.send(JSON.stringify({ type: 'disconnect', reason }))
  setTimeout(() => socket.terminate(), leaveWithinMs).unref()
}
