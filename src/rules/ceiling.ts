import type { Chart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Day } from '../chart/day.ts'
import { type Bout, type Ceiling, type Dose, type Range, runMinutes } from '../chart/dose.ts'
import { easyPaceMps } from './easy-pace.ts'

/** The most that is signed for a day: the lowest of plan, clearance and surgeon, each setting by itself. */
export function ceilingOn(chart: Chart, day: Day): Ceiling | undefined {
  const { plan, clearance, episode } = chart
  if (!plan) return undefined
  const surgeon = episode?.surgeonLimits
  const inForce = surgeon && (surgeon.until === undefined || day <= surgeon.until) ? surgeon : undefined
  return lowerOf(lowerOf(plan.ceiling, clearance?.ceiling), inForce)
}

type Limits = { readonly [K in keyof Ceiling]?: number | undefined }

/** The lower of two ceilings, each setting by itself. */
export function lowerOf(a: Ceiling, b: Limits | undefined): Ceiling {
  if (!b) return a
  return {
    bodyWeightPct: Math.min(a.bodyWeightPct, b.bodyWeightPct ?? a.bodyWeightPct),
    speedMps: Math.min(a.speedMps, b.speedMps ?? a.speedMps),
    runMinutes: Math.min(a.runMinutes, b.runMinutes ?? a.runMinutes),
  }
}

/**
 * Cuts a dose down to a ceiling and to what the treadmill can be set to. Undefined when even its lowest reading
 * is above them: then the rung is out of reach. Nothing is ever raised.
 */
export function capped(dose: Dose, ceiling: Ceiling, treadmill: Clinic['treadmill']): Dose | undefined {
  const bouts: Bout[] = []
  for (const bout of dose.bouts) {
    const fitted = dose.on === 'lbpp-treadmill' ? onTreadmill(bout, treadmill) : bout
    const limited = fitted && under(fitted, ceiling)
    if (!limited) return undefined
    bouts.push(limited)
  }
  return shortened({ ...dose, bouts }, ceiling.runMinutes)
}

/** The nearest setting of the machine that asks no more; undefined when its lowest is more already. */
function onTreadmill(bout: Bout, treadmill: Clinic['treadmill']): Bout | undefined {
  const bodyWeightPct = stepDown(bout.bodyWeightPct, treadmill.bodyWeightPct)
  const inclinePct = stepDown(bout.inclinePct, treadmill.inclinePct)
  if (bodyWeightPct === undefined || inclinePct === undefined) return undefined
  if (!bout.speedMps) return { ...bout, bodyWeightPct, inclinePct }
  const high = stepDown(bout.speedMps.high, treadmill.speedMps)
  const low = stepDown(bout.speedMps.low, treadmill.speedMps)
  if (high === undefined || bout.speedMps.low > treadmill.speedMps.high) return undefined
  return { ...bout, bodyWeightPct, inclinePct, speedMps: { low: low ?? high, high } }
}

function stepDown(
  value: number,
  setting: { readonly low: number; readonly high: number; readonly step?: number | undefined },
): number | undefined {
  if (value < setting.low) return undefined
  const most = Math.min(value, setting.high)
  if (!setting.step) return most
  // A little more before rounding down, so that 60 in steps of 0.1 stays 60.
  const steps = Math.floor((most - setting.low) / setting.step + 1e-9)
  return setting.low + steps * setting.step
}

/** A run for which the ladder gives no speed is run slowly; walking keeps its own pace. */
function under(bout: Bout, ceiling: Ceiling): Bout | undefined {
  if (bout.bodyWeightPct > ceiling.bodyWeightPct) return undefined
  if (bout.gait === 'walk') return bout
  const { low, high } = bout.speedMps ?? easyPaceMps(ceiling.speedMps)
  if (low > ceiling.speedMps) return undefined
  return { ...bout, speedMps: { low, high: Math.min(high, ceiling.speedMps) } }
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
