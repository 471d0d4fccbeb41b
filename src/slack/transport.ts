import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { type App, HTTPReceiver, type Logger, LogLevel, type Receiver, SocketModeReceiver } from '@slack/bolt'
import { answerEverything } from './answered.ts'
import type { Connection } from './app.ts'
import { refuseFutureDated } from './future-dated.ts'
import { refuseMalformed } from './well-formed.ts'

/** How deliveries come in: over signed HTTP, or over a socket that the bot opens itself. The doors are the same. */
export type Transport = {
  readonly receiver: Receiver
  /** Listens, and answers GET /health on the same address. Resolves with the port. */
  start(app: App, at: { readonly port: number; readonly host: string }): Promise<number>
  stop(app: App): Promise<void>
}

/** An idle connection must not hold up a stop. */
const keepAliveMs = 200

export function httpTransport(signingSecret: string, log: Logger): Transport {
  const receiver = new HTTPReceiver({
    signingSecret,
    logger: log,
    logLevel: LogLevel.WARN,
    customRoutes: [{ path: '/health', method: ['GET'], handler: (_, response) => void response.end(health) }],
  })
  refuseMalformed(receiver)
  refuseFutureDated(receiver)
  answerEverything(receiver, log)
  return {
    receiver,
    async start(app, at) {
      const server = (await app.start(at)) as Server
      server.keepAliveTimeout = keepAliveMs
      return (server.address() as AddressInfo).port
    },
    stop: async (app) => {
      await app.stop()
    },
  }
}

/**
 * The ping timeout also sets how long the client waits before it opens the socket again when the platform asks it to:
 * five seconds by default, in which nothing is delivered.
 */
const clientPingTimeout = 1500

export function socketTransport({ appToken = '', apiUrl }: Connection, log: Logger): Transport {
  const clientOptions = apiUrl ? { slackApiUrl: apiUrl } : {}
  const receiver = new SocketModeReceiver({
    appToken,
    clientPingTimeout,
    logger: log,
    logLevel: LogLevel.WARN,
    installerOptions: { clientOptions },
  })
  answerEverything(receiver, log)
  const server = createServer((request, response) => {
    response.statusCode = request.url === '/health' ? 200 : 404
    response.end(request.url === '/health' ? health : '')
  })
  server.keepAliveTimeout = keepAliveMs
  return {
    receiver,
    async start(app, { port, host }) {
      await app.start()
      await new Promise<void>((resolve, reject) => {
        server.once('error', reject)
        server.listen(port, host, resolve)
      })
      return (server.address() as AddressInfo).port
    },
    async stop(app) {
      await app.stop()
      await new Promise((resolve) => server.close(resolve))
    },
  }
}

const health = 'up\n'
