import type { Instant } from '../chart/day.ts'
import { laneOf, type Notice } from '../chart/notices.ts'
import { type Bucket, bucket } from './bucket.ts'
import type { Delivery, Resting } from './ports.ts'

/**
 * How fast the platform lets one app speak in one workspace (its published limits, read 2026-11): in a channel short
 * bursts, then one message a second; all together "several hundred" messages a minute; updates of messages fifty a
 * minute. Ordinary notices stay under each, so that a call always finds room: of the five that a channel takes at
 * once they use four, and of several hundred a minute 240.
 */
const channel = { atOnce: 4, everyMs: 1000 }
const workspace = { atOnce: 20, everyMs: 250 }
const updates = { atOnce: 10, everyMs: 1200 }

/** Sendings under way at the same time; one when the platform has just failed us. */
const mostUnderWay = 8
/** Less than this apart, two looks at the clock may simply have crossed. */
const clockJumpMs = 10_000

const firstRestSeconds = 5
const longestRestSeconds = 60

/** Keeps ordinary notices under the platform's limits. Calls are counted and never held back. */
export type Pace = {
  /** How many may be taken up now, and who must rest. */
  allowance(now: Instant): { readonly most: number; readonly resting: Resting }
  /** A notice goes out now. */
  count(notice: Notice, now: Instant): void
  /** A message is to be changed: undefined when it may be now, else when to come back for it. */
  updateAt(key: string, now: Instant): Instant | undefined
  /**
   * What the platform answered. It may ask for a rest. When it does not answer, ordinary notices are tried one at a
   * time, further and further apart, until it does: an outage must not leave ten thousand in doubt.
   */
  heard(delivery: Delivery, now: Instant): void
  /** When somebody who rests now may go on; undefined when nobody rests. */
  endOfRest(now: Instant): Instant | undefined
}

export function openPace(): Pace {
  const channels = new Map<string, Bucket>()
  const promised = new Map<string, number>()
  let all = bucket(workspace)
  let changes = bucket(updates)
  let failures = 0
  let restsUntilMs = 0
  let latestMs = 0

  /** Milliseconds of an instant. When the host's clock was set back, what was counted ahead of it is forgotten. */
  function read(now: Instant): number {
    const nowMs = Date.parse(now)
    if (nowMs < latestMs - clockJumpMs) {
      channels.clear()
      promised.clear()
      all = bucket(workspace)
      changes = bucket(updates)
      restsUntilMs = 0
      latestMs = nowMs
    }
    latestMs = Math.max(latestMs, nowMs)
    return nowMs
  }

  function allFreeAtMs(nowMs: number): number {
    return Math.max(restsUntilMs, all.freeAtMs(nowMs))
  }

  /** Lanes that rest; those that have rested are forgotten. */
  function tiredLanes(nowMs: number): Map<string, number> {
    const tired = new Map<string, number>()
    for (const [lane, used] of channels) {
      if (used.isRested(nowMs)) channels.delete(lane)
      else if (used.freeAtMs(nowMs) > nowMs) tired.set(lane, used.freeAtMs(nowMs))
    }
    return tired
  }

  return {
    allowance(now) {
      const nowMs = read(now)
      if (allFreeAtMs(nowMs) > nowMs) return { most: mostUnderWay, resting: 'all but calls' }
      const most = failures > 0 ? 1 : Math.min(mostUnderWay, all.free(nowMs))
      return { most, resting: new Set(tiredLanes(nowMs).keys()) }
    },
    count(notice, now) {
      const nowMs = read(now)
      const lane = laneOf(notice).replace(/!$/, '')
      const used = channels.get(lane) ?? bucket(channel)
      channels.set(lane, used)
      used.take(nowMs)
      all.take(nowMs)
    },
    updateAt(key, now) {
      const nowMs = read(now)
      const atMs = promised.get(key) ?? changes.take(nowMs)
      if (atMs > nowMs) {
        promised.set(key, atMs)
        return new Date(atMs).toISOString()
      }
      promised.delete(key)
      return undefined
    },
    heard(delivery, now) {
      const nowMs = read(now)
      if ('sent' in delivery) failures = 0
      else if (delivery.outcome === 'unknown') {
        // Several that were under way fail together: that is one failure.
        if (restsUntilMs > nowMs) return
        const seconds = Math.min(longestRestSeconds, firstRestSeconds * 2 ** failures)
        failures += 1
        restsUntilMs = nowMs + seconds * 1000
      } else restsUntilMs = Math.max(restsUntilMs, nowMs + (delivery.retryAfterSeconds ?? 0) * 1000)
    },
    endOfRest(now) {
      const nowMs = read(now)
      const ends = allFreeAtMs(nowMs) > nowMs ? [allFreeAtMs(nowMs)] : [...tiredLanes(nowMs).values()]
      return ends.length === 0 ? undefined : new Date(Math.min(...ends)).toISOString()
    },
  }
}
