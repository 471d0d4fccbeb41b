import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { pino } from 'pino'
import type { Settings } from '../config.ts'
import { receive, receiveForClinic } from '../desk/intake.ts'
import { type Bot, startBot } from '../main.ts'
import { cast, coachesChannel, player } from '../rehearsal/cast.ts'
import { type PushedClock, pushedClock } from '../rehearsal/clock.ts'
import { openStage, type Played } from '../rehearsal/stage.ts'
import { startAt, threeWeeks } from '../rehearsal/stories/three-weeks.ts'
import { openWorkspace, type Workspace } from '../rehearsal/workspace.ts'
import { keepClock } from './rehearsed-clock.ts'

const signingSecret = '0123456789abcdef0123456789abcdef'
const botToken = 'xoxb-rehearsal'

/** `rehearse [--story] [--keep FOLDER]`: the real bot against the stand-in workspace, on loopback, on a clock that is pushed. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const options = { story: { type: 'boolean', default: false }, keep: { type: 'string' } } as const
  const { values } = parseArgs({ args: [...argv], options })
  if (values.keep !== undefined && existsSync(values.keep)) {
    out(
      `${values.keep} is there already. Say a new folder, so that nothing is played into a clinic's records.`,
    )
    return 2
  }
  const clock = pushedClock(startAt)
  const workspace = await openRehearsalWorkspace(clock)
  const dataFolder = folderFor(values.keep)
  const played = await playBot(workspace, clock, dataFolder)
  const stage = openStage(workspace, clock, played, out)
  try {
    if (values.story) await threeWeeks(stage)
    for (const promise of stage.broken) out(`not kept: ${promise}`)
    out(
      stage.broken.length === 0
        ? '\nThe story ended as it should.'
        : `\n${stage.broken.length} promises were not kept.`,
    )
    return stage.broken.length === 0 ? 0 : 1
  } finally {
    await played.stop()
    await workspace.close()
    if (values.keep === undefined) rmSync(dataFolder, { recursive: true, force: true })
    else out(keepClock(dataFolder, clock))
  }
}

function folderFor(keep: string | undefined): string {
  if (keep === undefined) return mkdtempSync(join(tmpdir(), 'sanderling-'))
  mkdirSync(keep, { recursive: true, mode: 0o700 })
  return keep
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
  clock: PushedClock,
  dataFolder: string,
): Promise<Played & { stop(): Promise<void> }> {
  const settings: Settings = {
    botToken,
    signingSecret,
    port: 0,
    host: '127.0.0.1',
    dataFolder,
    sharedFolder: 'shared',
  }
  const log = pino({ level: 'warn' }, process.stderr)
  const start = async () => {
    const started = await startBot(settings, { clock, log, apiUrl: workspace.apiUrl, wakeUp: false })
    workspace.deliverTo({ http: `http://127.0.0.1:${started.port}/slack/events` })
    return started
  }
  let bot = await start()
  return {
    round: () => bot.round(),
    idle: () => bot.idle(),
    nextWake: () => nextWake(bot),
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

async function nextWake({ desk }: Bot): Promise<string | null> {
  const rows = await desk.store.index()
  const candidates = [...rows.map((row) => row.dueAt), await desk.store.nextTry()]
  return candidates.filter((at): at is string => typeof at === 'string').sort()[0] ?? null
}
