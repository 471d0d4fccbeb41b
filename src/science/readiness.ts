import { z } from 'zod'
import written from '../../shared/tables/own-baseline.json' with { type: 'json' }
import { CitedNumber } from './cited.ts'
import { mean, standardDeviation, standardScore } from './statistics.ts'

/** An athlete's answer today against the athlete's own last four weeks; never against anybody else. */
export const ownBaseline = z
  .strictObject({
    windowDays: CitedNumber,
    fewestDays: CitedNumber,
    smallestWorthwhileSd: CitedNumber,
    z90: CitedNumber,
    z95: CitedNumber,
  })
  .parse(written)

export type Readiness =
  | { readonly verdict: 'no-baseline'; readonly days: number; readonly words: string }
  | {
      readonly verdict: 'compared'
      readonly days: number
      readonly mean: number
      readonly difference: number
      /** Null when every earlier answer was the same: then only the difference can be shown. */
      readonly z: number | null
      /** Whether the difference is no more than asking twice would give; 'unknown' without a typical error. */
      readonly noise: 'inside' | 'beyond' | 'unknown'
    }

/**
 * `previous` holds one entry per calendar day before today, newest last, null where nothing was answered: a
 * missing day is left out, never filled in. Today is not part of its own baseline. Sample SD. A typical
 * error of one answer makes today minus a mean of n days unsure by TE sqrt(1 + 1/n).
 */
export function againstOwnBaseline(
  today: number,
  previous: readonly (number | null)[],
  typicalError?: number,
): Readiness {
  const { windowDays, fewestDays } = ownBaseline
  const answered = previous.slice(-windowDays.value).filter((value) => value !== null)
  const days = answered.length
  if (days < fewestDays.value)
    return {
      verdict: 'no-baseline',
      days,
      words: `No baseline yet: ${days} of at least ${fewestDays.value} days.`,
    }
  const middle = mean(answered)
  const sd = standardDeviation(answered, 'sample')
  const difference = today - middle
  const z = sd === 0 ? null : standardScore(today, middle, sd)
  if (typicalError === undefined)
    return { verdict: 'compared', days, mean: middle, difference, z, noise: 'unknown' }
  const unsure = typicalError * Math.sqrt(1 + 1 / days)
  const noise = Math.abs(difference) <= unsure ? 'inside' : 'beyond'
  return { verdict: 'compared', days, mean: middle, difference, z, noise }
}
