import { setTimeout as pause, setImmediate as turn } from 'node:timers/promises'

/** Long enough for whatever follows from the last answer to have come back to us as a request. */
const stillMs = 30
/** A bot that says when it has finished needs only the time to begin. */
const stillWithDrainMs = 5
const limitMs = 10_000

export type Drain = () => Promise<void>

/** Counts what is under way in either direction, so that a test waits for quiet and never for a while. */
export type Traffic = {
  track<T>(label: string, work: () => Promise<T>): Promise<T>
  /**
   * Resolves when nothing has been under way for a moment; `drain` is the bot's own "I have finished".
   * @throws when it does not become quiet within ten seconds, naming what is still under way, and when the
   * workspace itself broke since it was last quiet
   */
  quiet(drain?: Drain): Promise<void>
  /** The drain to use when none is named. */
  drainWith(drain: Drain | undefined): void
  /** Keeps a fault of the workspace itself for whoever waits for quiet next. */
  broke(fault: unknown): void
}

export function openTraffic(): Traffic {
  const underWay = new Map<number, string>()
  const faults: unknown[] = []
  let started = 0
  let usual: Drain | undefined
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
    drainWith(drain) {
      usual = drain
    },
    broke: (fault) => {
      faults.push(fault)
    },
    async quiet(drain = usual) {
      const until = performance.now() + limitMs
      for (;;) {
        await drain?.()
        const before = started
        await pause(drain ? stillWithDrainMs : stillMs)
        // A late timer must not overtake a request that already waits in the socket.
        await turn()
        await drain?.()
        if (faults.length > 0) throw faults.shift()
        if (underWay.size === 0 && started === before) return
        if (performance.now() > until)
          throw new Error(`still under way: ${[...underWay.values()].join(', ')}`)
      }
    },
  }
}
