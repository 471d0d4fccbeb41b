import { expectedPct, reckonedPct, type Setting } from './carried-weight.ts'
import { netFraction } from './net-fraction.ts'
import type { Note } from './note.ts'
import { alongLine, type Range, within } from './range.ts'
import { supported } from './supported-table.ts'

/**
 * The speed on the LBPP treadmill that is as hard as a speed on the ground, and back, as a range.
 *
 *     v(machine) = v (1 + (1 / f - 1) g(v))
 *
 * f is the net share of `netFraction`: at the 3 m/s of the harness study cost goes with speed, so 1/f times
 * the speed costs the same, and g is 1. g falls on a straight line to 0.65 at 5.6 m/s, so that the 13 % of
 * the harness lines at 85 % becomes the 9 % seen at maximal speeds [gojanovic-2012]; beyond, it is held.
 * Both published constraints on such a table hold by construction: more support needs more speed, and the
 * proportional speed-up falls with speed [kline-2015]. The cells of that table were not readable; this is a
 * model, not that table.
 *
 * At a setting of 100 % the range is not a point: the machine carries 93 % there, and people ran 6-8 %
 * faster on it than on an ordinary treadmill at the same oxygen uptake [gojanovic-2012].
 */
export function machineSpeedMps(groundSpeedMps: number, setting: Setting): Range {
  const ease = easeAt(setting)
  return {
    low: faster(groundSpeedMps, ease.low),
    high: faster(groundSpeedMps, ease.high),
  }
}

/** The inverse: the ground speed that is as hard as this machine speed. More support, slower ground. */
export function groundSpeedMps(machineSpeed: number, setting: Setting): Range {
  const ease = easeAt(setting)
  return { low: slower(machineSpeed, ease.high), high: slower(machineSpeed, ease.low) }
}

export function equalEffortNotes(speedMps: number, setting: Setting): Note[] {
  const { harnessSpeedMps, fastestStudiedMps } = supported.equalEffort
  const seen =
    within(reckonedPct(setting), supported.studiedBodyWeightPct.value) &&
    within(speedMps, [harnessSpeedMps.value, fastestStudiedMps.value])
  if (seen) return []
  const words = 'Equal effort leans on studies from 3 to 5.6 m/s and 60 to 100 % body weight.'
  return [{ kind: 'extrapolated', words, source: harnessSpeedMps.source }]
}

/** The extra speed at 3 m/s, as a fraction: from what was set at the dearest to what is expected at the cheapest. */
function easeAt(setting: Setting): Range {
  const reckoned = reckonedPct(setting)
  const measured = setting.measuredBodyWeightPct !== undefined
  const lightest = measured ? reckoned : Math.min(reckoned, expectedPct(reckoned))
  return {
    low: 1 / netFraction('run', reckoned).high - 1,
    high: 1 / netFraction('run', lightest).low - 1,
  }
}

const faster = (speedMps: number, ease: number): number => {
  const { harnessSpeedMps, fastestStudiedMps, fastestShare } = supported.equalEffort
  const share = alongLine(
    [
      [harnessSpeedMps.value, 1],
      [fastestStudiedMps.value, fastestShare.value],
    ],
    Math.min(speedMps, fastestStudiedMps.value),
  )
  return speedMps * (1 + ease * share)
}

/** `faster` rises with speed, so halving the interval finds its inverse to the last bit. */
const slower = (machineSpeed: number, ease: number): number => {
  let [low, high] = [0, machineSpeed]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (faster(middle, ease) < machineSpeed) low = middle
    else high = middle
  }
  return (low + high) / 2
}
