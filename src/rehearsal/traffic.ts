import { setTimeout as pause } from 'node:timers/promises'

const stillMs = 30
const limitMs = 10_000

/** Counts what is under way in either direction, so that a test waits for quiet and never for a while. */
export type Traffic = {
  track<T>(label: string, work: () => Promise<T>): Promise<T>
  /**
   * Resolves when nothing has been under way for a moment; `drain` is the bot's own "I have finished".
   * @throws when it does not become quiet within ten seconds, naming what is still under way
   */
  quiet(drain?: () => Promise<void>): Promise<void>
}

export function openTraffic(): Traffic {
  const underWay = new Map<number, string>()
  let started = 0
  return {
    async track(label, work) {
      const number = ++started
      underWay.set(number, label)
      try {
        return await work()
      } finally {
        underWay.delete(number)
      }
    },
    async quiet(drain) {
      const until = performance.now() + limitMs
      for (;;) {
        await drain?.()
        const before = started
        await pause(stillMs)
        if (underWay.size === 0 && started === before) return
        if (performance.now() > until)
          throw new Error(`still under way: ${[...underWay.values()].join(', ')}`)
      }
    },
  }
}
