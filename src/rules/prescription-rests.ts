import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { type Day, daysBetween, plusDays, weekdayOf } from '../chart/day.ts'
import type { Because } from '../chart/signing.ts'
import { mostOf } from './response-watch.ts'
import { settingsOf, sourceOf } from './settings.ts'
import type { Standing } from './standing.ts'

type Plan = NonNullable<Chart['plan']>

/** The last of the days without a run that the last session asked for: by the tissue's rows, and by the ladder. */
export function restUntil(plan: Plan, where: Standing): Day | undefined {
  if (!where.last) return undefined
  const { session, answer } = where.last
  const days = plan.ladder.limits.restDaysWhenFlared
  const byLadder = answer.response === 'flared' && days > 0 ? plusDays(session.day, days) : undefined
  return [answer.restUntil, byLadder]
    .filter((day) => day !== undefined)
    .sort()
    .at(-1)
}

/** What makes today a day without a run although running is allowed. Limits always win. */
export function whatRests(
  chart: Chart,
  plan: Plan,
  where: Standing,
  checkIn: CheckIn,
  next: number,
): Because | undefined {
  const { limits, rungs } = plan.ladder
  const source = plan.ladder.sources[0]?.key ?? 'common-practice'
  const today = checkIn.day
  const apart = rungs[where.rung - 1]?.daysFromRunToRun ?? limits.daysFromRunToRun
  const since = where.lastRunDay === undefined ? undefined : daysBetween(where.lastRunDay, today)
  if (since !== undefined && since < apart) {
    const open = where.unlogged === where.lastRunDay ? ` The run of ${where.unlogged} is not logged.` : ''
    return { finding: 'too-close', words: `${apart} days from run to run at least.${open}`, source }
  }
  if (!plan.days.includes(weekdayOf(today)))
    return {
      finding: 'not-a-run-day',
      words: 'Not one of the run days in your plan.',
      source: 'common-practice',
    }
  if (where.runsIn7Days >= limits.sessionsPer7Days)
    return { finding: 'week-full', words: `No more than ${limits.sessionsPer7Days} runs in 7 days.`, source }
  const most = rungs[where.rung - 1]?.sessions.high ?? 1
  if (next === where.rung && where.runsOnRungIn7Days >= most)
    return { finding: 'rung-full', words: `No more than ${most} runs on this rung in 7 days.`, source }
  return painToday(chart, checkIn)
}

/** Pain today above what the tissue's rule accepts: what hurts today does not run today. */
function painToday(chart: Chart, { morningPain, worstPain }: CheckIn): Because | undefined {
  const rules = settingsOf(chart)
  if (morningPain <= rules.morningMost && worstPain <= mostOf(rules)) return undefined
  const words =
    chart.episode?.tissue === 'bone'
      ? 'A bone that hurts today does not run today.'
      : 'More pain today than the rule accepts: no run today.'
  return { finding: 'pain-today', words, source: sourceOf(chart, 'morningMost') }
}
