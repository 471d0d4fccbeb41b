import { z } from 'zod'
import written from '../../shared/tables/circulation.json' with { type: 'json' }
import { CitedCurve, CitedNumber, CitedSpan } from './cited.ts'
import { along, within } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'

/** What the air pressure around the legs does to the circulation. For therapists; decides nothing. */
const table = z
  .strictObject({
    chamberPressureMmHg: CitedCurve,
    walkingHeartRateBpm: z.strictObject({ ordinary: CitedNumber, at50MmHg: CitedNumber }),
    uprightCyclingMapRiseMmHg: CitedCurve,
    runningMapRiseMmHg: CitedNumber,
    runningMapStudiedMmHg: CitedSpan,
  })
  .parse(written)

/** Gauge pressure at a set body weight, mmHg, standing, 25-100 % [lbpp-blood-pressure]. */
export function chamberPressureMmHg(bodyWeightPct: number): number | Refusal {
  return bodyWeightPct >= 25 && bodyWeightPct <= 100
    ? along(table.chamberPressureMmHg.value, bodyWeightPct)
    : refuse('out-of-range', 'Chamber pressure was published from 25 to 100 % body weight.')
}

/** Change of heart rate walking at 3 mph under 50 mmHg, beats per minute [cutuk-2006]. */
export function walkingHeartRateShiftBpm(): number {
  return table.walkingHeartRateBpm.at50MmHg.value - table.walkingHeartRateBpm.ordinary.value
}

/**
 * Rise of mean arterial pressure, mmHg. Upright CYCLING under 25-75 mmHg raised it by 7 to 25 [jap-1998];
 * RUNNING under up to 40 mmHg did not [stucky-2018]. The two are not interchangeable.
 */
export function arterialPressureRiseMmHg(
  exercise: 'upright-cycling' | 'running',
  chamberMmHg: number,
): number | Refusal {
  if (exercise === 'upright-cycling')
    return within(chamberMmHg, [0, 75])
      ? along(table.uprightCyclingMapRiseMmHg.value, chamberMmHg)
      : refuse('out-of-range', 'Upright cycling was studied up to 75 mmHg.')
  return within(chamberMmHg, table.runningMapStudiedMmHg.value)
    ? table.runningMapRiseMmHg.value
    : refuse('out-of-range', 'Running was studied up to 40 mmHg.')
}
