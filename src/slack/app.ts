import { App, type Logger, LogLevel } from '@slack/bolt'
import { WebClient } from '@slack/web-api'

export type Connection = {
  readonly botToken: string
  readonly signingSecret: string
  /** Where the platform's Web API answers; the rehearsal points it at loopback. */
  readonly apiUrl?: string
}

/** The bot's ears: the framework's own HTTP receiver, with a health page beside the signed door. */
export function openApp(connection: Connection, log: Logger): App {
  const { botToken, signingSecret, apiUrl } = connection
  return new App({
    token: botToken,
    signingSecret,
    logger: log,
    logLevel: LogLevel.WARN,
    convoStore: false,
    customRoutes: [
      {
        path: '/health',
        method: ['GET'],
        handler: (_, response) => void response.writeHead(200).end('up\n'),
      },
    ],
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
