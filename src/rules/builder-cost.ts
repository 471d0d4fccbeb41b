import { type Cost, cost } from '../science/cost.ts'
import type { Sex } from '../science/force.ts'
import { product, type Range } from '../science/range.ts'
import { isRefusal, type Refusal } from '../science/refusal.ts'

/** One session of a built ladder: how much weight, how fast, how long in all, how it is divided, and where. */
export type Stage = {
  readonly on: 'lbpp-treadmill' | 'ground'
  readonly bodyWeightPct: number
  readonly speedMps: number
  readonly minutes: number
  /** Minutes of running between two walks; the whole when there is no walk. */
  readonly boutMinutes: number
}

/** Into how many bouts the running is divided, evenly. */
export function boutsOf({ minutes, boutMinutes }: Pick<Stage, 'minutes' | 'boutMinutes'>): number {
  return Math.ceil(minutes / boutMinutes - 1e-9)
}

/** What a session costs, from the light to the heavy end of the published figures. */
export type StageCost = {
  readonly peakForceBw: Range
  readonly steps: Range
  /** Steps times peak force, in body weights: what the legs take up in the session. */
  readonly loadBw: Range
  readonly bodyWeightKm: number
  readonly cost: Cost
}

/** What the running of a stage costs. A refusal when the machine or the equations do not reach there. */
export function costOf(stage: Stage, runner: Runner): StageCost | Refusal {
  const onGround = stage.on === 'ground'
  const found = cost(
    {
      gait: 'run',
      speedMps: stage.speedMps,
      gradePct: 0,
      bodyWeightPct: stage.bodyWeightPct,
      minutes: stage.minutes,
      trulyRunning: true,
      ...(onGround ? { measuredBodyWeightPct: 100 } : {}),
    },
    runner,
  )
  if (isRefusal(found)) return found
  const steps = found.steps ?? { low: 0, high: 0 }
  return {
    peakForceBw: found.peakForceBw,
    steps,
    loadBw: product(steps, found.peakForceBw),
    bodyWeightKm: found.bodyWeightKm ?? 0,
    cost: found,
  }
}

export type Runner = { readonly massKg?: number | undefined; readonly sex?: Sex | undefined }

/** How much a figure rises, percent: at its light or at its heavy end, whichever rises more. */
export function risePct(from: Range, to: Range): number {
  return 100 * Math.max(to.low / from.low - 1, to.high / from.high - 1)
}
