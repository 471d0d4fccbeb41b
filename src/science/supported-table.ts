import { z } from 'zod'
import written from '../../shared/tables/supported.json' with { type: 'json' }
import { CitedCurve, CitedNumber, CitedSpan } from './cited.ts'

const line = z.strictObject({ slope: CitedNumber, offset: CitedNumber })

/** The published figures of moving at reduced body weight, from `shared/tables/supported.json`. */
export const supported = z
  .strictObject({
    rollingHarness: line,
    fixedHarness: line,
    trainedVo2MlKgMin: CitedCurve,
    eliteNetFraction: CitedCurve,
    quarterSupportNetFraction: CitedNumber,
    quarterSupportBodyWeightPct: CitedSpan,
    suspensionNetFraction: CitedCurve,
    gradeMlKgMinPerPct: CitedNumber,
    gradeStudiedPct: CitedSpan,
    gradeStudiedBodyWeightPct: CitedSpan,
    studiedBodyWeightPct: CitedSpan,
    studiedSpeedMps: CitedSpan,
    heartRateShiftBpm: CitedCurve,
    lactateMmolL: CitedCurve,
    walking: z.strictObject({
      stageTestPerStage: CitedNumber,
      stageTestPerSupportPct: CitedNumber,
      stageTestOffset: CitedNumber,
      middleStage: CitedNumber,
      suspensionNetFraction: CitedCurve,
    }),
    equalEffort: z.strictObject({
      harnessSpeedMps: CitedNumber,
      fastestShare: CitedNumber,
      fastestStudiedMps: CitedNumber,
    }),
  })
  .parse(written)
