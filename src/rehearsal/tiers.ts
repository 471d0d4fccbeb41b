import { type Clock, readClock } from './clock.ts'

/** How often a method may be called: a tier, "hundreds a minute", or posting with its limit per channel. */
export type Tier = 1 | 2 | 3 | 4 | 'connecting' | 'hundreds' | 'posting'

/**
 * Connecting is published as tier 1, "one a minute and more"; a client that was told to refresh is let in at
 * once all the same, so ten stand here, as many as an app may hold open.
 */
const perMinute: Record<Tier, number> = {
  1: 1,
  2: 20,
  3: 50,
  4: 100,
  connecting: 10,
  hundreds: 600,
  posting: 600,
}
const windowMs = 60_000
const perChannelMs = 1000
/** "Short bursts" beyond one message a second are let through; how short is not published. */
const channelBurst = 5

export type Tiers = {
  /** Counts one call. Answers with the seconds to wait when it is one too many, which is then not counted. */
  count(method: string, tier: Tier, channel?: string): number | undefined
}

export function openTiers(clock: Clock): Tiers {
  const calls = new Map<string, number[]>()
  /** Until when the messages already posted use up a channel's second each. */
  const busyUntilMs = new Map<string, number>()
  return {
    count(method, tier, channel) {
      const now = readClock(clock)
      const posts = tier === 'posting' && channel !== undefined
      const busyMs = posts ? Math.max(now, busyUntilMs.get(channel) ?? 0) + perChannelMs : now
      const overMs = busyMs - now - channelBurst * perChannelMs
      if (overMs > 0) return Math.ceil(overMs / 1000)
      const inMinute = (calls.get(method) ?? []).filter((at) => at > now - windowMs)
      if (inMinute.length >= perMinute[tier])
        return Math.max(1, Math.ceil(((inMinute[0] ?? now) + windowMs - now) / 1000))
      calls.set(method, [...inMinute, now])
      if (posts) busyUntilMs.set(channel, busyMs)
      return undefined
    },
  }
}
