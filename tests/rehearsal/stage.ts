import { App, LogLevel } from '@slack/bolt'
import { pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type WorkspaceOptions } from '../../src/rehearsal/workspace.ts'

const signingSecret = 'a-secret-for-rehearsals'
const botToken = 'xoxb-rehearsal'
const appToken = 'xapp-rehearsal'
export const secrets = { signingSecret, botToken, appToken }

/** A workspace with Ada, a guest, somebody who is gone and somebody from elsewhere, and one channel. */
export async function openStage(options: Partial<WorkspaceOptions> = {}) {
  const clock = pushedClock('2026-03-02T06:30:00Z')
  const workspace = await openWorkspace({ signingSecret, botToken, appToken, clock, ...options })
  workspace.people.add({ id: 'UADA', name: 'Ada Moss', timeZone: 'Europe/Paris' })
  workspace.people.add({ id: 'UBEN', name: 'Ben Reed', timeZone: 'America/New_York' })
  workspace.channels.add({ id: 'CTEAM', name: 'team', members: ['UADA', 'UBEN'] })
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
  return { app, close: () => app.stop() }
}

/** Planted faults make the framework complain; the tests look at what people see. */
const quietLogger = {
  debug() {},
  info() {},
  warn() {},
  error() {},
  setLevel() {},
  getLevel: () => LogLevel.ERROR,
  setName() {},
}
