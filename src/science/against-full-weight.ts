import type { Cost } from './cost.ts'
import { peakForceBw } from './force.ts'
import type { Range } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'
import { cadenceSpm } from './steps.ts'
import { type Tissue, type TissueLoad, tissueLoad } from './tissue-load.ts'

/**
 * Mechanical load of a costed bout against the same minutes at the same speed and full weight. The middle of
 * the force ratio and of the steps stands for the bout, so speed and its unsure peak cancel out; what is
 * left is the exponent and the setting, which the answer shows apart.
 */
export function againstFullWeight(costed: Cost, tissue: Tissue): TissueLoad | Refusal {
  const { gait, speedMps, steps, cadenceSpm: cadence, forceRatio } = costed
  if (steps === null)
    return refuse('say-more', 'Mechanical load needs minutes: without them there are no steps.')
  const fullForceBw = middle(peakForceBw(gait, speedMps))
  const minutes = middle(steps) / middle(cadence)
  const fullSteps = minutes * middle(cadenceSpm({ gait, speedMps, bodyWeightPct: 100 }))
  return tissueLoad(
    { steps: middle(steps), peakForceBw: fullForceBw * middle(forceRatio) },
    { steps: fullSteps, peakForceBw: fullForceBw },
    tissue,
  )
}

const middle = ({ low, high }: Range): number => (low + high) / 2
