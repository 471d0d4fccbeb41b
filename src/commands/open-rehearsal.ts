import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Logger, pino } from 'pino'
import { openEscalations } from '../chart/chart.ts'
import { dayAt, instantAt, plusDays } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import type { Settings } from '../config.ts'
import type { Desk } from '../desk/desk.ts'
import { receive, receiveForClinic } from '../desk/intake.ts'
import { nextSending } from '../desk/outbox.ts'
import { startBot } from '../main.ts'
import { cast, coachesChannel, player } from '../rehearsal/cast.ts'
import { type PushedClock, pushedClock } from '../rehearsal/clock.ts'
import { enrolEverybody, firstMorningAt, startAt } from '../rehearsal/first-day.ts'
import { openStage, type Played, type Ringing, type Stage } from '../rehearsal/stage.ts'
import { openWorkspace, type Workspace } from '../rehearsal/workspace.ts'
import { keepClock } from './rehearsed-clock.ts'

const signingSecret = '0123456789abcdef0123456789abcdef'
const botToken = 'xoxb-rehearsal'

export type Rehearsal = {
  readonly stage: Stage
  /** Stops the bot and the workspace; the charts go too, unless they are kept. */
  close(): Promise<void>
}

export type RehearsalOptions = {
  readonly say: (line: string) => void
  /** The folder in which the charts are kept; without it they are gone at the end. */
  readonly keep?: string
  readonly log?: Logger
}

/** The real bot against the stand-in workspace, on loopback, on a clock that is pushed. Nobody is enrolled yet. */
export async function openRehearsal({ say, keep, log }: RehearsalOptions): Promise<Rehearsal> {
  const clock = pushedClock(startAt)
  const workspace = await openRehearsalWorkspace(clock)
  const dataFolder = keep ?? mkdtempSync(join(tmpdir(), 'sanderling-'))
  const letGo = async () => {
    await workspace.close()
    if (keep === undefined) rmSync(dataFolder, { recursive: true, force: true })
    else say(keepClock(keep, clock))
  }
  try {
    const played = await playBot(workspace, { clock, dataFolder, log: log ?? warningsOnly() })
    return {
      stage: openStage(workspace, clock, played, say),
      async close() {
        await played.stop()
        await letGo()
      },
    }
  } catch (error) {
    await letGo()
    throw error
  }
}

/** A rehearsal in which three athletes are enrolled and the first of them have just been asked. */
export async function openFirstMorning(options: RehearsalOptions): Promise<Rehearsal> {
  let begun = false
  const rehearsal = await openRehearsal({ ...options, say: (line) => begun && options.say(line) })
  const { stage } = rehearsal
  await enrolEverybody(stage)
  await stage.advanceTo(firstMorningAt)
  begun = true
  return rehearsal
}

async function openRehearsalWorkspace(clock: PushedClock): Promise<Workspace> {
  const workspace = await openWorkspace({ signingSecret, botToken, clock })
  for (const { account, name, timeZone } of cast) workspace.people.add({ id: account, name, timeZone })
  workspace.channels.add({
    ...coachesChannel,
    members: cast.filter((one) => one.role !== 'athlete').map((one) => one.account),
  })
  workspace.faults.rateLimits(false)
  return workspace
}

/** The bot under rehearsal shares the pushed clock; everything else is as in a real start. */
async function playBot(
  workspace: Workspace,
  { clock, dataFolder, log }: { clock: PushedClock; dataFolder: string; log: Logger },
): Promise<Played & { stop(): Promise<void> }> {
  const settings: Settings = {
    botToken,
    signingSecret,
    port: 0,
    host: '127.0.0.1',
    dataFolder,
    sharedFolder: 'shared',
  }
  const start = async () => {
    const started = await startBot(settings, { clock, log, apiUrl: workspace.apiUrl, wakeUp: false })
    workspace.deliverTo({ http: `http://127.0.0.1:${started.port}/slack/events` })
    return started
  }
  let bot = await start()
  return {
    round: () => bot.round(),
    idle: () => bot.idle(),
    nextWake: () => nextWake(bot.desk),
    ringing: () => ringing(bot.desk),
    submit: async (by, submission) => {
      const caller = { id: by, roles: [player(by).role] }
      const forClinic = 'kind' in submission && (submission.kind === 'person' || submission.kind === 'place')
      const outcome = await (forClinic ? receiveForClinic : receive)(bot.desk, caller, submission)
      if ('refused' in outcome) throw new Error(outcome.words)
    },
    restart: async () => {
      await bot.stop()
      bot = await start()
    },
    stop: () => bot.stop(),
  }
}

async function nextWake(desk: Desk): Promise<string | null> {
  const rows = await desk.store.index()
  const candidates = [...rows.map((row) => row.dueAt), await nextSending(desk), await nextList(desk)]
  return candidates.filter((at): at is string => typeof at === 'string').sort()[0] ?? null
}

async function nextList(desk: Desk): Promise<string | null> {
  const { clinic, roster } = await desk.team()
  if (!roster.coachesChannel) return null
  const today = dayAt(desk.clock.now(), clinic.timeZone)
  const day = roster.listDay === today ? plusDays(today, 1) : today
  return instantAt(day, clinic.listAt, clinic.timeZone)
}

async function ringing(desk: Desk): Promise<Ringing[]> {
  const athletes = (await desk.store.index()).filter((row) => row.subject !== clinicSubject && row.open)
  const charts = await Promise.all(athletes.map((row) => desk.charts.read(row.subject)))
  return charts
    .flatMap(openEscalations)
    .filter((escalation) => !escalation.acknowledged)
    .flatMap(({ calls }) => calls.slice(-1))
    .map(({ person, recordedAt, ackBy }) => ({ person, since: recordedAt, ackBy }))
}

function warningsOnly(): Logger {
  return pino({ level: 'warn' }, process.stderr)
}
