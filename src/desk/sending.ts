import { minutesBetween } from '../chart/day.ts'
import type { Desk } from './desk.ts'
import { emptyOutbox, nextSending } from './outbox.ts'

/** Empties the outbox behind everybody's back, and comes back when the next try is due. */
export type Sending = {
  /** Returns at once. */
  kick(): void
  /** Resolves when nothing is being sent; what waits for a later try may still wait. */
  idle(): Promise<void>
  stop(): Promise<void>
}

/** Calls are sent beside everything else, so that none waits for a prompt that hangs. */
export function sendingOf(desk: Desk, onBug: (bug: unknown) => void): Sending {
  let stopped = false
  let wake: NodeJS.Timeout | undefined
  const calls = oneAtATime(() => emptyOutbox(desk, 'calls'), onBug)
  const all = oneAtATime(async () => {
    await emptyOutbox(desk)
    const next = await nextSending(desk)
    if (next && !stopped) wakeIn(minutesBetween(desk.clock.now(), next) * 60_000)
  }, onBug)

  /** A round comes every minute anyway: only shorter waits need a timer of their own. */
  function wakeIn(milliseconds: number): void {
    clearTimeout(wake)
    if (milliseconds > 60_000) return
    wake = setTimeout(kick, Math.max(milliseconds, 50))
    wake.unref()
  }

  function kick(): void {
    if (stopped) return
    calls.kick()
    all.kick()
  }

  async function idle(): Promise<void> {
    await Promise.all([calls.idle(), all.idle()])
  }

  async function stop(): Promise<void> {
    stopped = true
    clearTimeout(wake)
    calls.stop()
    all.stop()
    await idle()
  }

  return { kick, idle, stop }
}

/** Runs a piece of work once more whenever it is kicked, never twice at the same time. */
function oneAtATime(work: () => Promise<unknown>, onBug: (bug: unknown) => void) {
  let underWay: Promise<void> | undefined
  let again = false
  let stopped = false

  function kick(): void {
    if (stopped) return
    again = true
    underWay ??= run()
      .catch(onBug)
      .finally(() => {
        underWay = undefined
        if (again) kick()
      })
  }

  async function run(): Promise<void> {
    while (again && !stopped) {
      again = false
      await work()
    }
  }

  async function idle(): Promise<void> {
    while (underWay) await underWay
  }

  return {
    kick,
    idle,
    stop: () => {
      stopped = true
    },
  }
}
