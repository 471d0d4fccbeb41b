import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { pino } from 'pino'
import type { Settings } from '../config.ts'
import { receive, receiveForClinic } from '../desk/intake.ts'
import { nextSending } from '../desk/outbox.ts'
import { type Bot, startBot } from '../main.ts'
import { cast, coachesChannel, player } from '../rehearsal/cast.ts'
import { type PushedClock, pushedClock } from '../rehearsal/clock.ts'
import { openStage, type Played } from '../rehearsal/stage.ts'
import { startAt, threeWeeks } from '../rehearsal/stories/three-weeks.ts'
import { openWorkspace, type Workspace } from '../rehearsal/workspace.ts'

const signingSecret = '0123456789abcdef0123456789abcdef'
const botToken = 'xoxb-rehearsal'

/** `rehearse [--story]`: the real bot against the stand-in workspace, on loopback, on a clock that is pushed. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options: { story: { type: 'boolean', default: false } } })
  const clock = pushedClock(startAt)
  const workspace = await openRehearsalWorkspace(clock)
  const dataFolder = mkdtempSync(join(tmpdir(), 'sanderling-'))
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
    rmSync(dataFolder, { recursive: true, force: true })
  }
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
    commandPrefix: '',
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
  const candidates = [...rows.map((row) => row.dueAt), await nextSending(desk)]
  return candidates.filter((at): at is string => typeof at === 'string').sort()[0] ?? null
}
