import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Logger, pino } from 'pino'
import type { Settings } from '../../src/config.ts'
import { receive, receiveForClinic } from '../../src/desk/intake.ts'
import { type Bot, startBot } from '../../src/main.ts'
import { cast, coachesChannel, enrolment, player } from '../../src/rehearsal/cast.ts'
import { type PushedClock, pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../../src/rehearsal/workspace.ts'

export const signingSecret = '00112233445566778899aabbccddeeff'

/** The invented clinic at half past six on the morning after Mika was enrolled, with the bot and the workspace up. */
export type ClinicAtWork = {
  readonly workspace: Workspace
  readonly clock: PushedClock
  readonly bot: Bot
  readonly dataFolder: string
  as(id: string): ReturnType<Workspace['as']>
  /** Hands in as this person, past the chat; throws the words of a refusal. */
  submit(by: string, submission: object): Promise<void>
  settle(): Promise<void>
  close(): Promise<void>
}

export async function openClinic(
  athletes: readonly string[] = ['mika'],
  transport: 'http' | 'socket' = 'http',
  log: Logger = pino({ level: 'silent' }),
): Promise<ClinicAtWork> {
  const clock = pushedClock('2026-03-15T10:00:00.000Z')
  const botToken = 'xoxb-test'
  const appToken = 'xapp-test'
  const workspace = await openWorkspace({ signingSecret, botToken, appToken, clock })
  for (const { account, name, timeZone } of cast) workspace.people.add({ id: account, name, timeZone })
  workspace.people.add({ id: 'U9NOBODY', name: 'Somebody Else', timeZone: 'Europe/Lisbon' })
  workspace.channels.add({
    ...coachesChannel,
    members: cast.filter((p) => p.role !== 'athlete').map((p) => p.account),
  })
  const dataFolder = mkdtempSync(join(tmpdir(), 'sanderling-test-'))
  const settings: Settings = {
    botToken,
    signingSecret,
    ...(transport === 'socket' ? { appToken } : {}),
    port: 0,
    host: '127.0.0.1',
    dataFolder,
    sharedFolder: 'shared',
  }
  const bot = await startBot(settings, {
    clock,
    log,
    apiUrl: workspace.apiUrl,
    wakeUp: false,
  })
  workspace.deliverTo(
    transport === 'socket' ? { socket: true } : { http: `http://127.0.0.1:${bot.port}/slack/events` },
  )
  const submit = async (by: string, submission: object) => {
    const caller = { id: by, roles: [player(by).role] }
    const clinics = ['person', 'place'].includes((submission as { kind: string }).kind)
    const outcome = await (clinics ? receiveForClinic : receive)(bot.desk, caller, submission)
    if ('refused' in outcome) throw new Error(outcome.words)
  }
  for (const { id, name, role, account, timeZone } of cast)
    await submit('sunniva', {
      kind: 'person',
      person: { id, name, roles: [role], chatUser: account, timeZone, active: true },
    })
  await submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  const episode = {
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: '2026-02-12',
    clearedUntil: '2026-04-12',
  } as const
  for (const id of athletes) for (const one of enrolment(player(id), episode)) await submit('iben', one)
  const settle = () => workspace.quiet(() => bot.idle())
  await bot.round()
  await settle()
  clock.pushTo('2026-03-16T06:30:00.000Z')
  await bot.round()
  await settle()
  return {
    workspace,
    clock,
    bot,
    dataFolder,
    as: (id) => workspace.as(player(id).account),
    submit,
    settle,
    close: async () => {
      await bot.stop()
      await workspace.close()
      rmSync(dataFolder, { recursive: true, force: true })
    },
  }
}

/** Opens the check-in and fills an ordinary morning; what is remarkable is filled over it. */
export async function fillMorning(
  clinic: ClinicAtWork,
  athlete: string,
  over: Readonly<Record<string, string | readonly string[]>> = {},
) {
  const person = clinic.as(athlete)
  await person.command('/checkin')
  await clinic.settle()
  const ordinary = {
    worstPain: '0',
    morningPain: '0',
    swelling: 'no',
    'signs-always': ['none'],
    'signs-bone': ['none'],
  }
  for (const [field, answer] of Object.entries({ ...ordinary, ...over })) person.fill(field, answer)
  return person
}
