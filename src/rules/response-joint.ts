import { plusDays } from '../chart/day.ts'
import type { Soreness } from '../chart/session.ts'
import { type Answer, answer, mornings, silence, type Watch } from './response-watch.ts'

const rows = 'white-soreness-effusion'

const stayed: Partial<Record<Soreness, string>> = {
  'warm-up-stayed': 'Soreness came in the warm-up and stayed',
  'went-and-came-back': 'Soreness went and came back',
}

/**
 * Joints, by the soreness rows (white-soreness-effusion): none, on; gone with the warm-up, the same again; stayed
 * or came back, two days off and one rung lower; later or the next day, one day off and the same again. Soreness
 * is the joint's, not that of muscles. Swelling is the therapist's to grade.
 */
export function jointAnswer(watch: Watch): Answer {
  const { session, rules } = watch
  const long = plusDays(session.day, rules.restDaysWhenSorenessStays)
  const words = session.soreness && stayed[session.soreness]
  if (words) return answer('flared', `${words} in the run on ${session.day}.`, rows, long)
  if (session.painDuring > rules.painDuringMost)
    return answer('flared', `Pain ${session.painDuring} of 10 during the run on ${session.day}.`, rows, long)
  const later = soreLater(watch)
  if (later) return later
  if (session.soreness === 'warm-up-gone')
    return answer('provoked', `Sore in the warm-up on ${session.day}, gone as it went on.`, rows)
  const silent = silence(watch)
  if (silent) return silent
  if (session.painDuring > session.painBefore)
    return answer('provoked', `The run on ${session.day} added pain.`, 'capin-2018')
  if (rules.sorenessRows && session.soreness === undefined)
    return answer('unknown', `Soreness in the run of ${session.day} was not answered.`, 'common-practice')
  return answer('settled', `No soreness and no swelling after the run of ${session.day}.`, rows)
}

/** Sore more than an hour after, or the next day, or swollen: days off are counted from the day it was told. */
function soreLater(watch: Watch): Answer | undefined {
  const { session, rules, before } = watch
  const off = rules.restDaysWhenSoreAfter
  if (session.soreness === 'after' || session.painAfter > rules.painAfterMost)
    return answer('provoked', `Sore after the run on ${session.day}.`, rows, plusDays(session.day, off))
  const felt = Math.max(session.painBefore, session.painDuring, session.painAfter)
  const usual = before?.morningPain ?? session.painBefore
  for (const morning of mornings(watch)) {
    const { day, morningPain, worstPain, swelling } = morning
    const until = plusDays(day, off - 1)
    if (morningPain > rules.morningMost || morningPain - usual > rules.morningRiseMost)
      return answer('provoked', `The joint was sore on the morning of ${day}.`, rows, until)
    if (worstPain > Math.max(felt, rules.painAfterMost) || (morning === watch.next && worstPain > felt))
      return answer('provoked', `The joint was sore later, after the run on ${session.day}.`, rows, until)
    if (swelling !== 'no')
      return answer('provoked', `Swelling, or not sure of it, after the run on ${session.day}.`, rows, until)
  }
  return undefined
}
