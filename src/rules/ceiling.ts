import type { Clinic } from '../chart/clinic.ts'
import { type Bout, type Ceiling, type Dose, type Range, runMinutes } from '../chart/dose.ts'

/** The lower of two ceilings, each setting by itself. */
export function lowerOf(a: Ceiling, b: Ceiling | undefined): Ceiling {
  if (!b) return a
  return {
    bodyWeightPct: Math.min(a.bodyWeightPct, b.bodyWeightPct),
    speedMps: Math.min(a.speedMps, b.speedMps),
    runMinutes: Math.min(a.runMinutes, b.runMinutes),
  }
}

/**
 * Cuts a dose down to a ceiling and to the treadmill. Undefined when even its lowest reading is above them:
 * then the rung is out of reach. Nothing is ever raised.
 */
export function capped(dose: Dose, ceiling: Ceiling, treadmill: Clinic['treadmill']): Dose | undefined {
  const onTreadmill = dose.on === 'lbpp-treadmill'
  const topSpeed = onTreadmill ? Math.min(ceiling.speedMps, treadmill.speedMps.high) : ceiling.speedMps
  const bouts: Bout[] = []
  for (const bout of dose.bouts) {
    if (bout.bodyWeightPct > ceiling.bodyWeightPct) return undefined
    if (onTreadmill && outside(bout.bodyWeightPct, treadmill.bodyWeightPct)) return undefined
    if (onTreadmill && outside(bout.inclinePct, treadmill.inclinePct)) return undefined
    if (!bout.speedMps) bouts.push(bout)
    else if (bout.speedMps.low > topSpeed) return undefined
    else
      bouts.push({
        ...bout,
        speedMps: { low: bout.speedMps.low, high: Math.min(bout.speedMps.high, topSpeed) },
      })
  }
  return shortened({ ...dose, bouts }, ceiling.runMinutes)
}

/** Takes minutes off the longest readings of the running bouts until the whole fits; whole half-minutes. */
function shortened(dose: Dose, most: number): Dose | undefined {
  const { low, high } = runMinutes(dose)
  if (low > most) return undefined
  if (high <= most) return dose
  const share = (most - low) / (high - low)
  const bouts = dose.bouts.map((bout) => {
    if (bout.gait !== 'run' || !bout.minutes) return bout
    const repeats = Math.max(bout.repeats.low, Math.floor(between(bout.repeats, share)))
    const minutes = Math.max(bout.minutes.low, halfDown(between(bout.minutes, share)))
    return {
      ...bout,
      repeats: { low: bout.repeats.low, high: repeats },
      minutes: { low: bout.minutes.low, high: minutes },
    }
  })
  const fitted = { ...dose, bouts }
  return runMinutes(fitted).high <= most ? fitted : undefined
}

function between(range: Range, share: number): number {
  return range.low + (range.high - range.low) * share
}

function halfDown(minutes: number): number {
  return Math.floor(minutes * 2) / 2
}

function outside(value: number, range: Range): boolean {
  return value < range.low || value > range.high
}
