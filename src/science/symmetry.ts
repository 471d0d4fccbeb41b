import { isRefusal, type Refusal, refuse } from './refusal.ts'

/** Involved against uninvolved limb, of one test. */
export type BothLimbs = { readonly involved: number; readonly uninvolved: number }

/** Whether more is better (distance, torque) or less (time). */
export type Better = 'more' | 'less'

export const hops = ['single', 'triple', 'crossover', 'timed-6m'] as const
export type Hop = (typeof hops)[number]

/**
 * Limb symmetry index, per cent: involved over uninvolved [gokeler-2017]; turned over for times, where
 * shorter is better (recalled, not read). Undefined without an uninvolved value.
 */
export function limbSymmetryPct(
  { involved, uninvolved }: BothLimbs,
  better: Better = 'more',
): number | Refusal {
  if (!(involved >= 0 && uninvolved > 0 && (better === 'more' || involved > 0)))
    return refuse('undefined', 'Symmetry needs a measured value above 0 on the uninvolved side.')
  return 100 * (better === 'more' ? involved / uninvolved : uninvolved / involved)
}

export type HopSet = {
  readonly symmetryPct: Readonly<Partial<Record<Hop, number>>>
  /** The worst hop: a mean would hide it. */
  readonly lowestPct: number
  readonly missing: readonly Hop[]
}

/**
 * Symmetry of the four horizontal hops. More than two add little and distance overstates recovery
 * [hop-caution]; what counts as enough is a criterion in `shared`, not here.
 */
export function hopSet(measured: Readonly<Partial<Record<Hop, BothLimbs>>>): HopSet | Refusal {
  const symmetryPct: Partial<Record<Hop, number>> = {}
  for (const hop of hops) {
    const limbs = measured[hop]
    if (limbs === undefined) continue
    const pct = limbSymmetryPct(limbs, hop === 'timed-6m' ? 'less' : 'more')
    if (isRefusal(pct)) return refuse('undefined', `${hop}: ${pct.words}`)
    symmetryPct[hop] = pct
  }
  const known = Object.values(symmetryPct)
  if (known.length === 0) return refuse('say-more', 'At least one hop must be measured.')
  return {
    symmetryPct,
    lowestPct: Math.min(...known),
    missing: hops.filter((hop) => symmetryPct[hop] === undefined),
  }
}
