import { z } from 'zod'
import written from '../../shared/tables/force.json' with { type: 'json' }
import { CitedCurve, CitedNumber } from './cited.ts'

const line = z.strictObject({ offset: CitedNumber, perMps: CitedNumber })

/** The published figures of force, from `shared/tables/force.json`. */
export const forceTable = z
  .strictObject({
    stanceAverageBw: z.strictObject({ men: line, women: line }),
    dutyFactor: CitedCurve,
    walkingPeakBw: CitedCurve,
    walkingRatio: CitedCurve,
    plantarPeakBwPerPct: CitedNumber,
    tibialShockRatio: CitedNumber,
    legLengthPerHeight: CitedNumber,
    gravityMps2: CitedNumber,
    kneePeakBw: z.strictObject({ runningFullWeight: CitedNumber, walkingQuarterWeight: CitedNumber }),
  })
  .parse(written)
