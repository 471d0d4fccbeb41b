import { z } from 'zod'
import written from '../../shared/tables/limits.json' with { type: 'json' }
import type { Setting } from './carried-weight.ts'
import { CitedSpan } from './cited.ts'
import type { Sex } from './force.ts'
import type { Gait } from './metabolic.ts'
import { within } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'

/**
 * One bout. `bodyWeightPct` is what the machine is set to leave on the legs; a bout on the ground or on an
 * ordinary treadmill is `bodyWeightPct: 100, measuredBodyWeightPct: 100`: there full weight is known.
 */
export type Bout = Setting & {
  readonly gait: Gait
  readonly speedMps: number
  readonly gradePct: number
  readonly minutes?: number | undefined
  /** By the 26.8 of the published equations when the speed was given in miles; else it follows `speedMps`. */
  readonly metresPerMinute?: number | undefined
  /** Both feet leave the ground though the speed is below 134 m/min. */
  readonly trulyRunning?: boolean | undefined
}

/** What is known of who runs; every field sharpens the answer and none is needed. */
export type Runner = {
  readonly massKg?: number | undefined
  readonly heightCm?: number | undefined
  readonly sex?: Sex | undefined
  /** Counted in such a bout, steps per minute of both feet. */
  readonly ownCadenceSpm?: number | undefined
}

const limits = z
  .strictObject({
    bodyWeightPct: CitedSpan,
    measuredBodyWeightPct: CitedSpan,
    gradePct: CitedSpan,
    speedMps: CitedSpan,
    minutes: CitedSpan,
    massKg: CitedSpan,
    heightCm: CitedSpan,
    cadenceSpm: CitedSpan,
  })
  .parse(written)

/** What the machine and plain sense allow, before any equation is asked. */
export function outsideLimits(bout: Bout, runner: Runner): Refusal | undefined {
  if (!Number.isInteger(bout.bodyWeightPct) || !within(bout.bodyWeightPct, limits.bodyWeightPct.value))
    return refuse('out-of-range', 'Body weight carried is set in steps of 1 % from 20% to 100%.')
  return (
    outside(bout.measuredBodyWeightPct, limits.measuredBodyWeightPct, 'Measured body weight', '%') ??
    outside(bout.speedMps, limits.speedMps, 'Speed', ' m/s') ??
    outside(bout.gradePct, limits.gradePct, 'Incline', '%') ??
    outside(bout.minutes, limits.minutes, 'Duration', ' minutes') ??
    outside(runner.massKg, limits.massKg, 'Mass', ' kg') ??
    outside(runner.heightCm, limits.heightCm, 'Height', ' cm') ??
    outside(runner.ownCadenceSpm, limits.cadenceSpm, 'Cadence', ' spm')
  )
}

function outside(
  value: number | undefined,
  { value: span }: z.infer<typeof CitedSpan>,
  what: string,
  unit: string,
): Refusal | undefined {
  if (value === undefined || within(value, span)) return undefined
  return refuse('out-of-range', `${what} from ${span[0]}${unit} to ${span[1]}${unit} is accepted.`)
}
