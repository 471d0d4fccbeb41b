import { App, LogLevel, SocketModeReceiver } from '@slack/bolt'
import { WebClient } from '@slack/web-api'
import { pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type WorkspaceOptions } from '../../src/rehearsal/workspace.ts'

const signingSecret = 'a-secret-for-rehearsals'
const botToken = 'xoxb-rehearsal'
const appToken = 'xapp-rehearsal'
export const secrets = { signingSecret, botToken, appToken }

const toClose: (() => Promise<unknown>)[] = []

/** Closes what this test opened, last opened first. */
export async function tidy(): Promise<void> {
  for (const close of toClose.splice(0).reverse()) await close()
}

/** A workspace with Ada and Ben and one channel. */
export async function openStage(options: Partial<WorkspaceOptions> = {}) {
  const clock = pushedClock('2026-03-02T06:30:00Z')
  const workspace = await openWorkspace({ signingSecret, botToken, appToken, clock, ...options })
  workspace.people.add({ id: 'UADA', name: 'Ada Moss', timeZone: 'Europe/Paris' })
  workspace.people.add({ id: 'UBEN', name: 'Ben Reed', timeZone: 'America/New_York' })
  workspace.channels.add({ id: 'CTEAM', name: 'team', members: ['UADA', 'UBEN'] })
  toClose.push(workspace.close)
  return { workspace, clock, ada: workspace.as('UADA'), ben: workspace.as('UBEN') }
}

export type Stage = Awaited<ReturnType<typeof openStage>>

/** The real framework, listening over HTTP and told of by the workspace. */
export async function openHttpBot(stage: Stage, prepare: (app: App) => void) {
  const app = new App({
    token: botToken,
    signingSecret,
    logLevel: LogLevel.ERROR,
    logger: quietLogger,
    clientOptions: {
      slackApiUrl: stage.workspace.apiUrl,
      retryConfig: { retries: 0 },
      rejectRateLimitedCalls: true,
      timeout: 5000,
    },
  })
  prepare(app)
  const server = await app.start({ port: 0, host: '127.0.0.1' })
  const address = (server as { address(): { port: number } }).address()
  stage.workspace.deliverTo({ http: `http://127.0.0.1:${address.port}/slack/events` })
  toClose.push(() => app.stop())
  return app
}

/** The real framework over Socket Mode, set up so that it reconnects soon. */
export async function openSocketBot(stage: Stage, prepare: (app: App) => void) {
  const { apiUrl: slackApiUrl } = stage.workspace
  const receiver = new SocketModeReceiver({
    appToken,
    clientPingTimeout: 1500,
    logger: quietLogger,
    installerOptions: { clientOptions: { slackApiUrl } },
  })
  const app = new App({ token: botToken, receiver, logger: quietLogger, clientOptions: { slackApiUrl } })
  prepare(app)
  stage.workspace.deliverTo({ socket: true })
  await app.start()
  toClose.push(() => app.stop())
  return app
}

/** The real Web API client, without retries of its own. */
export function openClient(stage: Stage, token = botToken): WebClient {
  return new WebClient(token, {
    slackApiUrl: stage.workspace.apiUrl,
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    logger: quietLogger,
  })
}

/** The platform's error in what a call was refused with. */
export async function refusalOf(call: Promise<unknown>): Promise<string> {
  try {
    await call
    return 'not refused'
  } catch (error) {
    return (error as { data?: { error?: string } }).data?.error ?? String(error)
  }
}

/** Planted faults make the framework complain; the tests look at what people see. */
export const quietLogger = {
  debug() {},
  info() {},
  warn() {},
  error() {},
  setLevel() {},
  getLevel: () => LogLevel.ERROR,
  setName() {},
}
