/** What the workspace needs to know of time. Signatures and acknowledgement timers use real time instead. */
export type Clock = {
  /** An instant in UTC with milliseconds, such as 2026-03-02T06:30:00.000Z. */
  now(): string
  /** Calls the listener after every push; the answer takes the listener away again. */
  whenPushed(listener: () => void): () => void
}

export type Span = {
  readonly days?: number
  readonly hours?: number
  readonly minutes?: number
  readonly seconds?: number
}

export type PushedClock = Clock & {
  /** @throws when that would be back in time */
  pushTo(at: string): void
  /** A day is 24 hours here; wall time belongs to whoever has a time zone. */
  pushBy(span: Span): void
}

/** Stands still between pushes. */
export function pushedClock(startAt: string): PushedClock {
  let at = millisecondsOf(startAt)
  return pushable(
    () => at,
    (to) => {
      at = to
    },
  )
}

/** Runs on with real time and can be pushed ahead of it. */
export function runningClock(startAt: string = new Date().toISOString()): PushedClock {
  let start = millisecondsOf(startAt)
  let startedAt = performance.now()
  return pushable(
    () => Math.trunc(start + performance.now() - startedAt),
    (to) => {
      start = to
      startedAt = performance.now()
    },
  )
}

/** Unix milliseconds. */
export const readClock = (clock: Clock): number => Date.parse(clock.now())

function pushable(reading: () => number, set: (to: number) => void): PushedClock {
  const listeners = new Set<() => void>()
  const push = (to: number) => {
    if (to < reading()) throw new RangeError(`the clock stands at ${iso(reading())} and cannot go back`)
    set(to)
    for (const listener of listeners) listener()
  }
  return {
    now: () => iso(reading()),
    whenPushed(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    pushTo: (at) => push(millisecondsOf(at)),
    pushBy: ({ days = 0, hours = 0, minutes = 0, seconds = 0 }) =>
      push(reading() + (((days * 24 + hours) * 60 + minutes) * 60 + seconds) * 1000),
  }
}

const iso = (milliseconds: number) => new Date(milliseconds).toISOString()

function millisecondsOf(at: string): number {
  const milliseconds = Date.parse(at)
  if (Number.isNaN(milliseconds)) throw new RangeError(`${at} is not an instant`)
  return milliseconds
}
