import { type Answer, answer, mornings, mostOf, silence, type Watch } from './response-watch.ts'
import { climbOver } from './response-week.ts'

const model = 'silbernagel-2007'

/**
 * Tendons under the pain-monitoring rule (silbernagel-2007): up to 5 in the run and after, settled by the next
 * morning, not climbing from week to week; watched for 48 hours. Settled means no worse than the morning before
 * the run: a tendon that always aches a little may run.
 */
export function tendonAnswer(watch: Watch): Answer {
  const { session, rules, before } = watch
  if (session.painDuring > rules.painDuringMost)
    return answer('flared', `Pain ${session.painDuring} of 10 during the run on ${session.day}.`, model)
  if (session.painAfter > rules.painAfterMost)
    return answer('flared', `Pain ${session.painAfter} of 10 after the run on ${session.day}.`, model)
  for (const { day, worstPain, morningPain } of mornings(watch)) {
    if (worstPain > mostOf(rules))
      return answer('flared', `Pain ${worstPain} of 10 after the run on ${session.day}.`, model)
    if (morningPain > rules.morningMost)
      return answer('flared', `Pain ${morningPain} of 10 on the morning of ${day}.`, model)
  }
  const climb = climbOver(watch.chart, watch.asOf)
  const back = rules.weeklyClimbBack
  if (climb !== undefined && climb !== 'not known' && back !== undefined && climb >= back)
    return answer('flared', `The worst morning climbed by ${climb} from last week.`, model)
  const silent = silence(watch)
  if (silent) return silent
  const usual = before?.morningPain ?? session.painBefore
  const worse = mornings(watch).find((morning) => morning.morningPain - usual > rules.morningRiseMost)
  if (worse) return answer('provoked', `Not settled on the morning of ${worse.day}.`, model)
  if (rules.weeklyClimbMost !== undefined) {
    if (climb === 'not known')
      return answer('unknown', 'Too few mornings were answered to compare the weeks.', 'common-practice')
    if (climb !== undefined && climb > rules.weeklyClimbMost)
      return answer('provoked', `The worst morning climbed by ${climb} from last week.`, model)
  }
  if (mornings(watch).some((morning) => morning.swelling !== 'no'))
    return answer(
      'provoked',
      `Swelling, or not sure of it, after the run on ${session.day}.`,
      'common-practice',
    )
  return answer('settled', `Within the rule during the run of ${session.day}, and settled by morning.`, model)
}
