import type { z } from 'zod'
import type { DoneBout } from '../chart/dose.ts'
import type { LiveChange } from '../chart/session.ts'

/** A change as the athlete tells it: `atMinute` counts minutes of running, the first bout from 0. */
export type Turned = z.infer<typeof LiveChange>

/**
 * The bouts as they came out when something was turned down, or ended, on the way: what was changed counts as the dose
 * done. A bout in which the change fell is parted there; what was left of it, and whatever followed, is done at the new
 * setting, or not at all when the run was stopped. Walking between the runs takes no part in the counting.
 */
export function withChange(bouts: readonly DoneBout[], change: Turned): readonly DoneBout[] {
  const { atMinute, bodyWeightPct, speedMps, stopped } = change
  let ran = 0
  return bouts.flatMap((bout) => {
    if (bout.gait !== 'run') return stopped && ran >= atMinute ? [] : [bout]
    const whole = bout.minutes * bout.repeats
    const before = Math.min(whole, Math.max(0, atMinute - ran))
    ran += whole
    // What was weighed belongs to the setting at which it was weighed.
    const { measuredBodyWeightPct: _, ...set } = bout
    const after = {
      ...(bodyWeightPct === undefined ? bout : set),
      ...(bodyWeightPct === undefined ? {} : { bodyWeightPct }),
      ...(speedMps === undefined ? {} : { speedMps }),
    }
    return [...partOf(bout, 0, before), ...(stopped ? [] : partOf(after, before, whole))]
  })
}

/** The minutes of a bout from one to another, in whole repeats where there are some. */
function partOf(bout: DoneBout, from: number, until: number): DoneBout[] {
  const { minutes } = bout
  if (minutes <= 0 || until <= from) return []
  const head = Math.min(until, Math.ceil(from / minutes - tiny) * minutes)
  const repeats = Math.max(0, Math.floor((until - head) / minutes + tiny))
  const tail = head + repeats * minutes
  return [
    ...(head - from > tiny ? [{ ...bout, minutes: rounded(head - from), repeats: 1 }] : []),
    ...(repeats > 0 ? [{ ...bout, repeats }] : []),
    ...(until - tail > tiny ? [{ ...bout, minutes: rounded(until - tail), repeats: 1 }] : []),
  ]
}

/** Minutes are typed in decimals: this much of one is none. */
const tiny = 1e-6

function rounded(minutes: number): number {
  return Number(minutes.toFixed(2))
}
