import { App, type Logger, LogLevel, type Receiver } from '@slack/bolt'
import { WebClient } from '@slack/web-api'
import type { Identity } from './identity.ts'

export type Connection = {
  readonly botToken: string
  readonly signingSecret: string
  /** With it the bot opens a socket; without it, it listens for signed HTTP. */
  readonly appToken?: string
  /** Where the platform's Web API answers; the rehearsal points it at loopback. */
  readonly apiUrl?: string
}

/** The framework's app on the transport that was chosen. */
export function openApp(
  { apiUrl }: Connection,
  receiver: Receiver,
  identity: () => Promise<Identity>,
  log: Logger,
): App {
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
