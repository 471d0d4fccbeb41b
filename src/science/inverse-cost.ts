import type { Bout, Runner } from './bout.ts'
import { type Cost, cost } from './cost.ts'
import { gradePctForVo2, metresPerMinuteForVo2 } from './metabolic.ts'
import { isRefusal, type Refusal, refuse } from './refusal.ts'

/** The bout with its unknown left out: give the speed and the grade is found, give the grade and the speed is. */
export type Asked = Omit<Bout, 'speedMps' | 'gradePct'> & {
  readonly speedMps?: number | undefined
  readonly gradePct?: number | undefined
}

/**
 * The bout that costs `vo2` (gross, mL/kg/min) at full body weight, with everything it costs. Only there:
 * under support the cost is a range, and a range has no one inverse.
 */
export function costAtVo2(vo2: number, asked: Asked, runner: Runner = {}): Cost | Refusal {
  const { speedMps, gradePct, metresPerMinute, ...rest } = asked
  if ((asked.measuredBodyWeightPct ?? asked.bodyWeightPct) < 100)
    return refuse(
      'say-more',
      'An inverse is defined at full body weight only: below it the cost is a range, not a number.',
    )
  const trulyRunning = asked.trulyRunning === true
  if (speedMps !== undefined && gradePct === undefined) {
    const pace = metresPerMinute ?? speedMps * 60
    const found = gradePctForVo2(vo2, { gait: asked.gait, metresPerMinute: pace, trulyRunning })
    return isRefusal(found)
      ? found
      : cost({ ...rest, speedMps, metresPerMinute: pace, gradePct: found }, runner)
  }
  if (gradePct !== undefined && speedMps === undefined) {
    const found = metresPerMinuteForVo2(vo2, { gait: asked.gait, gradePct, trulyRunning })
    return isRefusal(found) ? found : cost({ ...rest, speedMps: found / 60, gradePct }, runner)
  }
  return refuse(
    'say-more',
    'An inverse needs either the speed (to find the incline) or the incline (to find the speed).',
  )
}
