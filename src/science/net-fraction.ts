import { type Gait, restingVo2MlKgMin } from './metabolic.ts'
import { along, alongLine, type Point, type Range } from './range.ts'
import { supported } from './supported-table.ts'

/**
 * Net oxygen cost at a fraction of body weight, as a share of the net cost at full weight, the same speed
 * and the same whole body mass under the line. Studies disagree (net 0.61 to 0.85 at 75-80 % body weight),
 * so the answer is the span between them and never one number:
 *
 * - running, high: the dearest of the two harness lines [teunissen-2007] and of the 2020 LBPP study less
 *   rest [fleckenstein-2020];
 * - running, low: the cheapest published at 75-80 % [ijesab-2-8], which lies under the elite runners
 *   [mcneill-2015], held down to 60 % and led on to the suspension study at 25 % [farley-1992];
 * - walking: from the middle of the graded walking test [lee-2016] to the suspension study [farley-1992].
 *
 * Both edges rise with weight and end at 1 at full weight: less weight never costs more.
 */
export function netFraction(gait: Gait, bodyWeightPct: number): Range {
  if (bodyWeightPct >= 100) return { low: 1, high: 1 }
  return gait === 'walk' ? walkingFraction(bodyWeightPct) : runningFraction(bodyWeightPct)
}

/** The two published harness lines at 3 m/s, as printed: neither passes through 1 [teunissen-2007]. */
export function harnessNetFractions(bodyWeightPct: number): { rolling: number; fixed: number } {
  const { rollingHarness, fixedHarness } = supported
  const w = bodyWeightPct / 100
  return {
    rolling: rollingHarness.slope.value * w + rollingHarness.offset.value,
    fixed: fixedHarness.slope.value * w + fixedHarness.offset.value,
  }
}

/** Gross VO2 of the graded walking test, mL/kg/min, by stage 1-5 and support in per cent [lee-2016]. */
export function stageTestVo2MlKgMin(stage: number, supportPct: number): number {
  const { stageTestPerStage, stageTestPerSupportPct, stageTestOffset } = supported.walking
  return stageTestPerStage.value * stage + stageTestPerSupportPct.value * supportPct + stageTestOffset.value
}

/** Mean gross VO2 of trained men over 10-18 km/h, mL/kg/min, 60-100 % set body weight [fleckenstein-2020]. */
export function trainedVo2MlKgMin(bodyWeightPct: number): number {
  return along(supported.trainedVo2MlKgMin.value, bodyWeightPct)
}

const netOfTrained: readonly Point[] = (() => {
  const points = supported.trainedVo2MlKgMin.value
  const full = along(points, 100) - restingVo2MlKgMin
  return points.map(([pct, gross]): Point => [pct, (gross - restingVo2MlKgMin) / full])
})()

const cheapestRunning: readonly Point[] = (() => {
  const lowest = supported.quarterSupportNetFraction.value
  const [from] = supported.studiedBodyWeightPct.value
  const [, to] = supported.quarterSupportBodyWeightPct.value
  const suspended = supported.suspensionNetFraction.value[0] as Point
  return [[0, 0], suspended, [from, lowest], [to, lowest], [100, 1]]
})()

const cheapestWalking: readonly Point[] = (() => {
  const stage = supported.walking.middleStage.value
  const net = (support: number): number => stageTestVo2MlKgMin(stage, support) - restingVo2MlKgMin
  return [
    [20, net(80) / net(0)],
    [100, 1],
  ]
})()

const runningFraction = (pct: number): Range => {
  const { rolling, fixed } = harnessNetFractions(pct)
  return {
    low: along(cheapestRunning, pct),
    high: Math.min(1, Math.max(rolling, fixed, alongLine(netOfTrained, pct))),
  }
}

const walkingFraction = (pct: number): Range => ({
  low: Math.max(0, alongLine(cheapestWalking, pct)),
  high: alongLine(supported.walking.suspensionNetFraction.value, pct),
})
