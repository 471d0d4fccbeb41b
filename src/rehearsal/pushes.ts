import { dayAt, type Instant, instantAt, plusDays, plusMinutes, WallTime } from '../chart/day.ts'
import { clinicZone } from './first-day.ts'
import type { Stage } from './stage.ts'

const most = { days: 31, words: 'at most 31 days at a time' }
const minutesIn: Record<string, number> = { m: 1, h: 60, d: 1440 }

export const pushesInWords = 'next, +15m, +1h, +2d, 08:30, tomorrow 06:30'

/**
 * The instant meant by `next`, `+15m`, `+1h`, `+2d`, `08:30` or `tomorrow 06:30`, on the clinic's wall.
 * @throws with words when there is no such instant ahead
 */
export async function pushTarget(words: string, { clock, bot }: Stage): Promise<Instant> {
  const now = clock.now()
  const target = words === 'next' ? await nextAfter(now, await bot.nextWake()) : wallTarget(words, now)
  if (!target) throw new Error(`The clock can be pushed: ${pushesInWords}.`)
  if (target < now) throw new Error(`The clock cannot go back. It can be pushed: ${pushesInWords}.`)
  if (target > plusMinutes(now, most.days * 1440)) throw new Error(`The clock goes ${most.words}.`)
  return target
}

function nextAfter(now: Instant, wake: string | null): Instant {
  if (!wake) throw new Error('The bot waits for nothing by itself now.')
  return wake > now ? wake : now
}

function wallTarget(words: string, now: Instant): Instant | undefined {
  const span = /^\+(\d{1,6}) ?([mhd])$/.exec(words)
  if (span) return plusMinutes(now, Number(span[1]) * (minutesIn[span[2] ?? ''] ?? 1))
  const [, tomorrow, time = ''] = /^(tomorrow )?(\S+)$/.exec(words) ?? []
  if (!WallTime.safeParse(time).success) return undefined
  const today = dayAt(now, clinicZone)
  return instantAt(tomorrow ? plusDays(today, 1) : today, time, clinicZone)
}
