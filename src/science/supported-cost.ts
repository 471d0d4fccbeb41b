import { climbVo2, type Effort, levelVo2, restingVo2MlKgMin, vo2MlKgMin } from './metabolic.ts'
import { netFraction } from './net-fraction.ts'
import type { Note } from './note.ts'
import { along, product, type Range, within } from './range.ts'
import { isRefusal, type Refusal, refuse } from './refusal.ts'
import { supported } from './supported-table.ts'

/**
 * Net oxygen cost on the LBPP treadmill, mL per kg of WHOLE body mass per minute: the net cost at full
 * weight (metabolic equations, within their ranges) times the published share that is left.
 *
 * Running uphill under support is dearer by a published 6.8 mL/kg/min for 7 % [fleckenstein-2021], far less
 * than the equation's climb: the low edge takes whichever is smaller.
 */
export function supportedNetVo2MlKgMin(effort: Effort, bodyWeightPct: number): Range | Refusal {
  const full = vo2MlKgMin(effort)
  if (isRefusal(full)) return full
  const fraction = netFraction(effort.gait, bodyWeightPct)
  const climb = climbVo2(effort)
  const level = product(fraction, { low: levelVo2(effort), high: levelVo2(effort) })
  const seenClimb = supported.gradeMlKgMinPerPct.value * effort.gradePct
  const lowClimb =
    effort.gait === 'run' && bodyWeightPct < 100
      ? Math.min(seenClimb, climb * fraction.low)
      : climb * fraction.low
  return { low: level.low + lowClimb, high: level.high + climb * fraction.high }
}

/** Which parts of a supported oxygen cost lie outside what was studied. Nothing to say at full weight. */
export function supportedCostNotes(effort: Effort, bodyWeightPct: number): Note[] {
  if (bodyWeightPct >= 100) return []
  const say = (words: string, source: string): Note => ({ kind: 'extrapolated', words, source })
  if (effort.gait === 'walk')
    return [
      say(
        'Oxygen cost of supported walking comes from a graded test and a suspension study, not from this speed.',
        'lee-2016',
      ),
    ]
  const notes: Note[] = []
  const { studiedBodyWeightPct, studiedSpeedMps, gradeStudiedPct, gradeStudiedBodyWeightPct } = supported
  if (!within(bodyWeightPct, studiedBodyWeightPct.value))
    notes.push(
      say('Oxygen cost of running was studied from 60 to 100 % body weight.', studiedBodyWeightPct.source),
    )
  if (!within(effort.metresPerMinute / 60, studiedSpeedMps.value))
    notes.push(
      say(
        'Oxygen cost of supported running was studied from 10 to 19.3 km/h (6.2 to 12 mph).',
        studiedSpeedMps.source,
      ),
    )
  const gradeSeen =
    within(effort.gradePct, gradeStudiedPct.value) && within(bodyWeightPct, gradeStudiedBodyWeightPct.value)
  if (effort.gradePct > 0 && !gradeSeen)
    notes.push(
      say(
        'Uphill running under support was studied to 7 % and at 80 and 90 % body weight only.',
        gradeStudiedPct.source,
      ),
    )
  return notes
}

/** How much lower the heart beats at the same running speed, beats per minute, 60-100 % set body weight. */
export function heartRateShiftBpm(bodyWeightPct: number): number | Refusal {
  return outsideStudied(bodyWeightPct) ?? along(supported.heartRateShiftBpm.value, bodyWeightPct)
}

/** Mean blood lactate of trained men at the same running speeds, mmol/L, 60-100 % set body weight. */
export function lactateMmolL(bodyWeightPct: number): number | Refusal {
  return outsideStudied(bodyWeightPct) ?? along(supported.lactateMmolL.value, bodyWeightPct)
}

/** Gross cost from net cost, mL/kg/min. */
export function gross(net: Range): Range {
  return { low: net.low + restingVo2MlKgMin, high: net.high + restingVo2MlKgMin }
}

const outsideStudied = (bodyWeightPct: number): Refusal | undefined =>
  within(bodyWeightPct, supported.studiedBodyWeightPct.value)
    ? undefined
    : refuse('out-of-range', 'This was studied from 60 to 100 % body weight.')
