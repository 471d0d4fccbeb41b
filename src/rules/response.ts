import { type Chart, checkInOf } from '../chart/chart.ts'
import { type Day, daysBetween, plusDays } from '../chart/day.ts'
import type { Response, Tissue } from '../chart/ladder.ts'
import type { SessionDone } from '../chart/session.ts'
import type { Because } from '../chart/signing.ts'

/** How the body answered a session, and what says so. */
export type Answer = { readonly response: Response; readonly because: Because }

/**
 * The most pain that each tissue's rule accepts in the run and in the 24 hours after it. Bone accepts none
 * (vincent-2022). The others keep the same strict default until their own families are written.
 */
const accepted: Record<Tissue, { readonly during: number; readonly after: number; readonly source: string }> =
  {
    bone: { during: 0, after: 0, source: 'vincent-2022' },
    joint: { during: 0, after: 0, source: 'common-practice' },
    tendon: { during: 0, after: 0, source: 'common-practice' },
    muscle: { during: 0, after: 0, source: 'common-practice' },
  }

/**
 * The 24-hour response to a session: settled, provoked, flared, or unknown. Two mornings speak for the 24 hours
 * after an evening's run: the next one must be answered, the one after it counts when it is there. Silence is
 * never read as fine.
 */
export function respond(chart: Chart, session: SessionDone, today: Day): Answer {
  const rule = accepted[chart.episode?.tissue ?? 'bone']
  if (session.painDuring > rule.during)
    return answer('flared', `Pain ${session.painDuring} of 10 during the run on ${session.day}.`, rule.source)
  const nextMorning = plusDays(session.day, 1)
  const next = checkInOf(chart, nextMorning)
  if (!next)
    return answer('unknown', `No answer on the morning after the run of ${session.day}.`, 'common-practice')
  const mornings = [
    next,
    daysBetween(nextMorning, today) >= 1 ? checkInOf(chart, plusDays(session.day, 2)) : undefined,
  ]
  const worst = Math.max(session.painAfter, ...mornings.map((checkIn) => checkIn?.worstPain ?? 0))
  if (worst > rule.after)
    return answer('flared', `Pain ${worst} of 10 within 24 hours of the run on ${session.day}.`, rule.source)
  if (mornings.some((checkIn) => checkIn && checkIn.swelling !== 'no'))
    return answer(
      'provoked',
      `Swelling, or not sure of it, after the run on ${session.day}.`,
      'common-practice',
    )
  return answer(
    'settled',
    `No more pain during the run of ${session.day} or in the 24 hours after.`,
    rule.source,
  )
}

function answer(response: Response, words: string, source: string): Answer {
  return { response, because: { finding: `response-${response}`, words, source } }
}
