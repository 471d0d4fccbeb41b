import { type Clock, readClock } from './clock.ts'

/** How often a method may be called: a tier, "hundreds a minute", or posting with its limit per channel. */
export type Tier = 1 | 2 | 3 | 4 | 'hundreds' | 'posting'

const perMinute: Record<Tier, number> = {
  1: 1,
  2: 20,
  3: 50,
  4: 100,
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
  const recent = (key: string, withinMs: number) => {
    const now = readClock(clock)
    const kept = (calls.get(key) ?? []).filter((at) => at > now - withinMs)
    calls.set(key, kept)
    return kept
  }
  return {
    count(method, tier, channel) {
      const now = readClock(clock)
      const inRoom =
        tier === 'posting' && channel !== undefined ? recent(`#${channel}`, channelBurst * perChannelMs) : []
      if (inRoom.length >= channelBurst) return 1
      const inMinute = recent(method, windowMs)
      if (inMinute.length >= perMinute[tier])
        return Math.max(1, Math.ceil(((inMinute[0] ?? now) + windowMs - now) / 1000))
      inMinute.push(now)
      if (tier === 'posting' && channel !== undefined) inRoom.push(now)
      return undefined
    },
  }
}
