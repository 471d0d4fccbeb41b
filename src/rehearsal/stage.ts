import { asBefore } from './as-before.ts'
import { coachesChannel, player } from './cast.ts'
import type { PushedClock } from './clock.ts'
import type { Message } from './ledger.ts'
import type { Person } from './person.ts'
import { readable } from './readable.ts'
import type { Workspace } from './workspace.ts'

/** A call that nobody has acknowledged yet: who is called, since when, and until when before it goes on. */
export type Ringing = { readonly person: string; readonly since: string; readonly ackBy: string }

/** What a story needs of the bot that is played against; the wiring hands it in. */
export type Played = {
  /** One round now, and everything that follows from it done. */
  round(): Promise<void>
  idle(): Promise<void>
  /** When the bot next has something to do by itself; null when nothing waits. */
  nextWake(): Promise<string | null>
  ringing(): Promise<readonly Ringing[]>
  /** A submission from the clinic's terminal, signed by this person. Throws with the words of a refusal. */
  submit(by: string, submission: object): Promise<void>
  /** Stops the bot and starts it anew on what is on disk. */
  restart(): Promise<void>
}

/** The rehearsal: the workspace, the bot and the clock, with a transcript of what each person sees. */
export type Stage = {
  readonly workspace: Workspace
  readonly clock: PushedClock
  readonly bot: Played
  as(id: string): Person
  /** Pushes the clock to an instant, making every round that falls due on the way. */
  advanceTo(instant: string): Promise<void>
  /** Lets everything under way end, then says what people saw. */
  settle(): Promise<void>
  say(line: string): void
  /** What the story promises. A promise that is not kept is said and counted. */
  expect(kept: boolean, promise: string): void
  readonly broken: readonly string[]
}

export function openStage(
  workspace: Workspace,
  clock: PushedClock,
  bot: Played,
  say: (line: string) => void,
): Stage {
  const seen = new Map<string, string>()
  const read = new Map<string, Set<string>>()
  const broken: string[] = []
  const names = new Map(workspace.people.all().map((member) => [member.id, member.name]))

  async function settle(): Promise<void> {
    await workspace.quiet(bot.idle)
    await letPace()
    for (const member of workspace.people.all())
      show(`${member.name} sees`, member.id, workspace.as(member.id).messages())
    const reader = workspace.as(player('noor').account)
    show(`#${coachesChannel.name} shows`, coachesChannel.id, reader.messages(coachesChannel.id))
  }

  /** What only waits for the platform's pace takes its seconds. */
  async function letPace(): Promise<void> {
    for (;;) {
      const next = await bot.nextWake()
      const seconds = next ? (Date.parse(next) - Date.parse(clock.now())) / 1000 : 0
      if (!next || seconds <= 0 || seconds > 5) return
      clock.pushTo(next)
      await bot.round()
      await workspace.quiet(bot.idle)
    }
  }

  function show(who: string, where: string, messages: readonly Message[]): void {
    for (const message of messages) {
      const lines = readable(message, (id) => names.get(id))
      const key = `${where}/${message.ts}`
      const before = seen.get(key)
      const now = lines.join('\n')
      if (before === now) continue
      seen.set(key, now)
      say(`  ${who}${before === undefined ? '' : ' (changed)'}:`)
      const known = read.get(where) ?? new Set()
      for (const line of asBefore(lines, known)) say(`    | ${line}`)
      read.set(where, new Set([...known, ...lines]))
    }
  }

  async function advanceTo(instant: string): Promise<void> {
    for (;;) {
      const next = await bot.nextWake()
      if (!next || next > instant || next < clock.now()) break
      if (next > clock.now()) clock.pushTo(next)
      await bot.round()
      await settle()
      if ((await bot.nextWake()) === next) break
    }
    if (instant > clock.now()) clock.pushTo(instant)
    await bot.round()
    await settle()
  }

  return {
    workspace,
    clock,
    bot,
    as: (id) => workspace.as(player(id).account),
    advanceTo,
    settle,
    say,
    expect(kept, promise) {
      if (kept) return
      broken.push(promise)
      say(`  !! not kept: ${promise}`)
    },
    broken,
  }
}
