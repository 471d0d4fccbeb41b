import { pathToFileURL } from 'node:url'
import { type Logger as BoltLogger, LogLevel } from '@slack/bolt'
import cron from 'node-cron'
import { type Logger, pino } from 'pino'
import { readSettings, type Settings } from './config.ts'
import { type Desk, openDesk } from './desk/desk.ts'
import { type Library, openLibrary } from './desk/library.ts'
import { type Clock, isStoreTrouble, type Store, StoreClosed, StoreDamaged } from './desk/ports.ts'
import { makeRounds } from './desk/rounds.ts'
import { sendingOf } from './desk/sending.ts'
import { SharedFault } from './desk/shared-file.ts'
import { pictures } from './reports/pictures/pictures.ts'
import { startFault } from './rules/rota.ts'
import { accountsOf } from './slack/accounts.ts'
import { openApp, outboxClient } from './slack/app.ts'
import { openDoors } from './slack/doors.ts'
import type { ExportOf } from './slack/export-of.ts'
import { slackFace } from './slack/face.ts'
import { identityOf, TokenRefused, workspaceName } from './slack/identity.ts'
import { pictureShelf } from './slack/picture-shelf.ts'
import type { RecordOf } from './slack/record-of.ts'
import { httpTransport, socketTransport } from './slack/transport.ts'
import { countUnderWay } from './slack/under-way.ts'
import { chartKeys, coverOf } from './stores/cover.ts'
import { lowdbStore } from './stores/lowdb.ts'
import { postgresStore } from './stores/postgres.ts'

export type Bot = {
  readonly desk: Desk
  readonly port: number
  /** The workspace's name; undefined when the platform could not be reached at the start. */
  readonly workspace: string | undefined
  /** One round now, and what it queued sent. */
  round(): Promise<void>
  /** Resolves when nothing is being worked on or sent. */
  idle(): Promise<void>
  /** Ends what is under way, then stops. */
  stop(): Promise<void>
}

export type Outside = {
  readonly clock: Clock
  readonly log: Logger
  /** Where the platform's Web API answers, when it is not the platform itself. */
  readonly apiUrl?: string
  /** Wake up every minute; off when somebody pushes the clock and makes the rounds. */
  readonly wakeUp: boolean
}

export const systemClock: Clock = { now: () => new Date().toISOString() }

/**
 * Wires the bot together and starts it. The only place that knows all the parts. Throws `SharedFault`,
 * `StoreDamaged`, `StoreClosed` or `TokenRefused`, each with words that say what to mend.
 */
export async function startBot(settings: Settings, { clock, log, apiUrl, wakeUp }: Outside): Promise<Bot> {
  const library = openLibrary(settings.sharedFolder)
  const report = (event: string, about: object) => log.info(about, event)
  const store = await openStore(settings, log)
  const connection = { ...settings, ...(apiUrl ? { apiUrl } : {}) }
  const client = outboxClient(connection, boltLogger(log))
  const identity = identityOf(client, settings.botToken)
  const face = slackFace(client, library.setUpCard)
  const workspace = await workspaceName(identity).catch(async (refused) => {
    await store.close()
    throw refused
  })
  const desk = openDesk({ store, face, clock, library, clinic: library.clinic, report })
  const fault = startFault(await desk.team())
  if (fault) {
    await store.close()
    throw new SharedFault(fault)
  }
  const bug = (error: unknown) => (isStoreTrouble(error) ? log.error(error.words) : crash(log, error))
  const sending = sendingOf(desk, bug)
  const transport = settings.appToken
    ? socketTransport(connection, boltLogger(log))
    : httpTransport(settings.signingSecret, boltLogger(log))
  const app = openApp(connection, transport.receiver, identity, boltLogger(log))
  const underWay = countUnderWay(app)
  app.error(async (error) => log.error({ code: error.code }, 'a delivery could not be answered'))
  const accounts = accountsOf(client, async () => (await identity()).bot.teamId)
  openDoors(
    app,
    {
      desk,
      kick: sending.kick,
      accounts,
      recordOf: recordFrom(library),
      exportOf: exportFrom(library),
      pictures: pictureShelf(pictures, report),
    },
    settings.commandPrefix ?? '',
  )

  const round = async () => {
    await makeRounds(desk)
    sending.kick()
  }
  const port = await transport.start(app, settings)
  await round()
  const task = wakeUp
    ? cron.schedule('* * * * *', () => round().catch(bug), {
        timezone: 'UTC',
        noOverlap: true,
        name: 'round',
      })
    : undefined

  const idle = async () => {
    await underWay.idle()
    await sending.idle()
  }
  return {
    desk,
    workspace,
    port,
    round: async () => {
      await round()
      await sending.idle()
    },
    idle,
    stop: async () => {
      await task?.destroy()
      await underWay.idle()
      await transport.stop(app)
      await sending.stop()
      await store.close()
    },
  }
}

/** The athlete's record as one file; what makes it is loaded only when somebody asks. */
function recordFrom(shelf: Library): RecordOf {
  return async (chart, reader, team, now) => {
    const [{ archive }, { asHandedTo }] = await Promise.all([
      import('./reports/archive.ts'),
      import('./reports/confidence.ts'),
    ])
    return archive(asHandedTo(reader, chart, team), team, now, { shelf })
  }
}

/** The chart in the form that was asked for; loaded only when somebody asks, as above. */
function exportFrom(shelf: Library): ExportOf {
  return async (chart, { form, reader, for: whom, paper }, team, now) => {
    const [{ exportFile }, { asHandedTo }] = await Promise.all([
      import('./reports/export-file.ts'),
      import('./reports/confidence.ts'),
    ])
    return exportFile(form, asHandedTo(reader, chart, team), team, { now, for: whom, paper, shelf })
  }
}

/** The store that the settings name; a damaged one does not open (D9). */
async function openStore({ dataFolder, store }: Settings, log: Logger): Promise<Store> {
  if (store?.kind === 'postgres') return postgresStore(store.database)
  return lowdbStore(dataFolder, {
    onDamage: 'refuse',
    report: (words) => log.warn(words),
    cover: coverOf(chartKeys(store?.chartKeys ?? '')),
  })
}

/** A bug ends the process loudly; the next start finds everything that was acknowledged. */
function crash(log: Logger, error: unknown): never {
  log.fatal(error)
  process.exit(1)
}

/** Ids and counts only: the framework's own words go through at warning level, bodies never. */
function boltLogger(log: Logger): BoltLogger {
  return {
    debug: () => {},
    info: () => {},
    warn: (...words) => log.warn(words.map(String).join(' ')),
    error: (...words) =>
      log.error(words.map((w) => (w instanceof Error ? `${w.name}: ${w.message}` : String(w))).join(' ')),
    setLevel: () => {},
    getLevel: () => LogLevel.WARN,
    setName: () => {},
  }
}

/** What can keep the bot from starting and is somebody's to mend, with words that say how. */
const known = [StoreDamaged, StoreClosed, SharedFault, TokenRefused]

async function run(): Promise<void> {
  const settings = readSettings()
  if ('faults' in settings) {
    for (const fault of settings.faults) process.stderr.write(`${fault}\n`)
    process.stderr.write('Nothing was started. To try Sanderling without an account: npm run rehearse\n')
    process.exit(1)
  }
  const log = pino({ redact: ['token', '*.token', '*.botToken', '*.appToken', '*.signingSecret'] })
  process.on('unhandledRejection', (error) => crash(log, error))
  try {
    const bot = await startBot(settings, { clock: systemClock, log, wakeUp: true })
    const { workspace } = bot
    const { clinic } = bot.desk
    const way = settings.appToken ? 'over a socket' : `on http://${settings.host}:${bot.port}/slack/events`
    process.stdout.write(`Sanderling answers for ${clinic.name} ${way}\n`)
    process.stdout.write(
      workspace ? `Connected to ${workspace}.\n` : 'The platform cannot be reached now; trying again.\n',
    )
    const kept = settings.store?.kind === 'postgres' ? 'the database' : settings.dataFolder
    process.stdout.write(`Charts are in ${kept}; health: http://${settings.host}:${bot.port}/health\n`)
    for (const signal of ['SIGTERM', 'SIGINT'] as const)
      process.once(signal, () => void bot.stop().then(() => process.exit(0)))
  } catch (error) {
    if (!known.some((kind) => error instanceof kind)) throw error
    process.stderr.write(`${(error as Error).message}\nNothing was started.\n`)
    process.exit(1)
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await run()
