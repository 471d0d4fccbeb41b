import { App, HTTPReceiver, type Logger, LogLevel } from '@slack/bolt'
import { WebClient } from '@slack/web-api'
import { refuseFutureDated } from './future-dated.ts'
import type { Identity } from './identity.ts'

export type Connection = {
  readonly botToken: string
  readonly signingSecret: string
  /** Where the platform's Web API answers; the rehearsal points it at loopback. */
  readonly apiUrl?: string
}

/** The bot's ears: the framework's own HTTP receiver, with a health page beside the signed door. */
export function openApp(connection: Connection, identity: () => Promise<Identity>, log: Logger): App {
  const { signingSecret, apiUrl } = connection
  const receiver = new HTTPReceiver({
    signingSecret,
    logger: log,
    logLevel: LogLevel.WARN,
    customRoutes: [
      {
        path: '/health',
        method: ['GET'],
        handler: (_, response) => void response.writeHead(200).end('up\n'),
      },
    ],
  })
  refuseFutureDated(receiver)
  return new App({
    authorize: async () => (await identity()).bot,
    receiver,
    logger: log,
    logLevel: LogLevel.WARN,
    convoStore: false,
    clientOptions: {
      retryConfig: { retries: 1 },
      timeout: 2500,
      allowAbsoluteUrls: false,
      logger: log,
      ...(apiUrl ? { slackApiUrl: apiUrl } : {}),
    },
  })
}

/** The client of the outbox: it never repeats by itself, because the platform knows no idempotency key. */
export function outboxClient({ botToken, apiUrl }: Connection, log: Logger): WebClient {
  return new WebClient(botToken, {
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: 10_000,
    allowAbsoluteUrls: false,
    logger: log,
    ...(apiUrl ? { slackApiUrl: apiUrl } : {}),
  })
}
