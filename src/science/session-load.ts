import { z } from 'zod'
import written from '../../shared/tables/internal-load.json' with { type: 'json' }
import { CitedNumber, CitedSpan } from './cited.ts'
import { within } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'
import { mean, type Spread, standardDeviation, sum } from './statistics.ts'

/** Internal load by session-RPE, and the shape of a week [foster-2001, foster-1998]. */
export const internalLoad = z
  .strictObject({ rpe: CitedSpan, weekDays: CitedNumber, acuteDays: CitedNumber, chronicDays: CitedNumber })
  .parse(written)

/** Effort of the whole session (0-10, asked half an hour after) times its minutes, arbitrary units. */
export function sessionLoadAu(rpe: number, minutes: number): number | Refusal {
  const [least, most] = internalLoad.rpe.value
  if (!within(rpe, [least, most]))
    return refuse('out-of-range', `Effort from ${least} to ${most} is accepted.`)
  return minutes >= 0 ? rpe * minutes : refuse('out-of-range', 'A session lasts 0 minutes or more.')
}

/** One load per day, oldest first; a day may hold several sessions and a rest day holds none. */
export function dailyLoads(days: readonly (readonly number[])[]): number[] {
  return days.map(sum)
}

export type Week = {
  /** How many days (or rows) went in; fewer than 7 is not yet a week. */
  readonly days: number
  readonly weekLoad: number
  readonly meanLoad: number
  readonly spread: Spread
  readonly sd: number | null
  /** Mean over SD; null when the SD is 0 or there is only one day. */
  readonly monotony: number | null
  /** Week load times monotony. */
  readonly strain: number | null
  readonly reason?: string
}

/**
 * Week load, monotony and strain of the given daily loads, rest days as 0. The founding papers do not say
 * which standard deviation they mean, and their one worked week fits neither daily reading (its nine
 * session rows with the population SD give the printed 1.26), so the spread is always said [foster-2001].
 */
export function weekOf(loads: readonly number[], spread: Spread): Week {
  const weekLoad = sum(loads)
  const meanLoad = mean(loads)
  const shape = { days: loads.length, weekLoad, meanLoad, spread }
  const none = (sd: number | null, reason: string): Week => ({
    ...shape,
    sd,
    monotony: null,
    strain: null,
    reason,
  })
  if (loads.length < 2) return none(null, 'One day has no spread: at least two are needed.')
  const sd = standardDeviation(loads, spread)
  if (sd === 0)
    return none(0, 'Every day has the same load: its spread is 0 and nothing can be divided by it.')
  const monotony = meanLoad / sd
  return { ...shape, sd, monotony, strain: weekLoad * monotony }
}
