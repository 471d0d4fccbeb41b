import { minutesBetween } from '../chart/day.ts'
import type { Desk } from './desk.ts'
import { emptyOutbox } from './outbox.ts'

/** Keeps one emptying of the outbox under way at most, and comes back when the next try is due. */
export type Sending = {
  /** Returns at once. */
  kick(): void
  /** Resolves when nothing is being sent; what waits for a later try may still wait. */
  idle(): Promise<void>
  stop(): Promise<void>
}

export function sendingOf(desk: Desk, onBug: (bug: unknown) => void): Sending {
  let underWay: Promise<void> | undefined
  let again = false
  let stopped = false
  let wake: NodeJS.Timeout | undefined

  async function send(): Promise<void> {
    do {
      again = false
      await emptyOutbox(desk)
    } while (again && !stopped)
    const next = await desk.store.nextTry()
    if (next && !stopped) wakeIn(minutesBetween(desk.clock.now(), next) * 60_000)
  }

  /** A round comes every minute anyway: only shorter waits need a timer of their own. */
  function wakeIn(milliseconds: number): void {
    clearTimeout(wake)
    if (milliseconds > 60_000) return
    wake = setTimeout(kick, Math.max(milliseconds, 50))
    wake.unref()
  }

  function kick(): void {
    if (stopped) return
    again = true
    underWay ??= send()
      .catch(onBug)
      .finally(() => {
        underWay = undefined
        if (again) kick()
      })
  }

  async function idle(): Promise<void> {
    while (underWay) await underWay
  }

  async function stop(): Promise<void> {
    stopped = true
    again = false
    clearTimeout(wake)
    await idle()
  }

  return { kick, idle, stop }
}
