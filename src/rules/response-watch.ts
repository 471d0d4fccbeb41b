import { type Chart, checkInOf } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { type Day, plusDays } from '../chart/day.ts'
import type { FamilySettings } from '../chart/family.ts'
import type { Response } from '../chart/ladder.ts'
import type { SessionDone } from '../chart/session.ts'
import type { Because } from '../chart/signing.ts'

/** How the body answered a session, what says so, and the last of the days without a run that it asks for. */
export type Answer = {
  readonly response: Response
  readonly because: Because
  readonly restUntil?: Day
}

/** A session with what is known of the hours after it, as each tissue's rule reads it. */
export type Watch = {
  readonly chart: Chart
  readonly session: SessionDone
  readonly rules: FamilySettings
  /** The last day that is looked at: today, or the second morning when that is over. */
  readonly asOf: Day
  /** The morning before the run. */
  readonly before: CheckIn | undefined
  /** The next morning, and the one after it; undefined when it was not answered or has not come. */
  readonly next: CheckIn | undefined
  readonly second: CheckIn | undefined
}

export function watchOf(chart: Chart, session: SessionDone, rules: FamilySettings, today: Day): Watch {
  const nextMorning = plusDays(session.day, 1)
  const secondMorning = plusDays(session.day, 2)
  return {
    chart,
    session,
    rules,
    asOf: today < secondMorning ? today : secondMorning,
    before: checkInOf(chart, session.day),
    next: nextMorning <= today ? checkInOf(chart, nextMorning) : undefined,
    second: secondMorning <= today ? checkInOf(chart, secondMorning) : undefined,
  }
}

/** The mornings that were answered, in order. */
export function mornings({ next, second }: Watch): readonly CheckIn[] {
  if (next && second) return [next, second]
  return next ? [next] : second ? [second] : []
}

/** Unknown while a morning that must be answered was not: silence is never read as fine. */
export function silence({ session, rules, next, second }: Watch): Answer | undefined {
  if (!next)
    return answer('unknown', `No answer on the morning after the run of ${session.day}.`, 'common-practice')
  if (rules.hoursWatched === 48 && !second)
    return answer('unknown', `The run of ${session.day} is watched for 48 hours.`, 'common-practice')
  return undefined
}

/** The most pain that a rule accepts at any time of the watch. */
export function mostOf(rules: FamilySettings): number {
  return Math.max(rules.painDuringMost, rules.painAfterMost)
}

export function answer(response: Response, words: string, source: string, restUntil?: Day): Answer {
  const because = { finding: `response-${response}`, words, source }
  return restUntil === undefined ? { response, because } : { response, because, restUntil }
}
