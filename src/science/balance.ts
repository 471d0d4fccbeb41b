import { type Refusal, refuse } from './refusal.ts'
import { scores } from './scores-table.ts'

/** Reaches of one leg in the three-way balance test, cm. */
export type Reach = {
  readonly anterior: number
  readonly posteromedial: number
  readonly posterolateral: number
}

/** Composite reach, per cent of leg length: the mean of the three [plisky-2006]. Knows no pass mark. */
export function balanceCompositePct(reach: Reach, legLengthCm: number): number | Refusal {
  const { anterior, posteromedial, posterolateral } = reach
  if (!(legLengthCm > 0 && [anterior, posteromedial, posterolateral].every((cm) => cm >= 0)))
    return refuse('undefined', 'The composite needs a leg length above 0 and three reaches.')
  return (100 * (anterior + posteromedial + posterolateral)) / (3 * legLengthCm)
}

/**
 * Anterior reach of one leg against the other, cm, and whether it is MORE than the published 4 cm of
 * high-school basketball players [plisky-2006], which is not far above the noise of 2-3 cm.
 */
export function anteriorDifference(leftCm: number, rightCm: number): { cm: number; abovePublished: boolean } {
  const cm = Math.abs(leftCm - rightCm)
  return { cm, abovePublished: cm > scores.reachDifferenceCm.value }
}
