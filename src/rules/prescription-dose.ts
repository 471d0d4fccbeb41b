import type { Chart } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Day } from '../chart/day.ts'
import type { Dose, Range } from '../chart/dose.ts'
import { doseOf, type Move } from '../chart/ladder.ts'
import type { Because } from '../chart/signing.ts'
import { capped, ceilingOn } from './ceiling.ts'

type Plan = NonNullable<Chart['plan']>

export type Wanted = {
  readonly move: Move
  /** The rung that the response leads to, and the one the athlete stands on. */
  readonly rung: number
  readonly from: number
  readonly because: readonly Because[]
}

export type Fitted = Pick<Wanted, 'move' | 'rung'> & {
  readonly because: Because[]
  readonly dose: Dose | undefined
}

/** The highest rung up to the wanted one that fits under everything that was signed; no dose when none does. */
export function fitted(
  chart: Chart,
  plan: Plan,
  wanted: Wanted,
  today: Day,
  treadmill: Clinic['treadmill'],
): Fitted {
  const ceiling = ceilingOn(chart, today) ?? plan.ceiling
  const state = chart.clearance?.state ?? 'no running'
  let why: Because = underCeiling
  for (let rung = wanted.rung; rung >= 1; rung -= 1) {
    const found = plan.ladder.rungs[rung - 1]
    if (!found) continue
    if (!allows(state, found.on)) {
      why = placeNotCleared(state)
      continue
    }
    const dose = capped(doseOf(found), ceiling, treadmill)
    if (!dose) continue
    if (rung === wanted.rung) return { move: wanted.move, rung, dose, because: [...wanted.because] }
    const move = rung < wanted.from ? 'back' : 'repeat'
    return { move, rung, dose, because: [...wanted.because, why] }
  }
  return { move: 'hold', rung: wanted.from, dose: undefined, because: [...wanted.because, outOfReach] }
}

/** The lowest reading of everything: where a step back finds no lower rung. */
export function easiest(dose: Dose): Dose {
  const low = (range: Range): Range => ({ low: range.low, high: range.low })
  const bouts = dose.bouts.map((bout) => ({
    ...bout,
    repeats: low(bout.repeats),
    ...(bout.minutes ? { minutes: low(bout.minutes) } : {}),
    ...(bout.speedMps ? { speedMps: low(bout.speedMps) } : {}),
  }))
  return { ...dose, bouts }
}

/** Unloaded running is running in the LBPP treadmill; everything else needs a clearance for the ground. */
export function allows(state: State, on: Dose['on']): boolean {
  const order = State.options
  const needed = on === 'lbpp-treadmill' ? 'unloaded running' : 'ground running'
  return order.indexOf(state) >= order.indexOf(needed)
}

function placeNotCleared(state: State): Because {
  return {
    finding: 'place-not-cleared',
    words: `Cleared for ${state}: the next rung needs a clearance for running on the ground.`,
    source: 'common-practice',
  }
}

const underCeiling: Because = {
  finding: 'ceiling',
  words: 'The signed ceiling keeps the run on a lower rung.',
  source: 'common-practice',
}

const outOfReach: Because = {
  finding: 'out-of-reach',
  words: 'No rung of the ladder fits under what was signed.',
  source: 'common-practice',
}
