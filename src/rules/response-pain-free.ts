import { type Answer, answer, mornings, mostOf, silence, type Watch } from './response-watch.ts'
import { sourceOf } from './settings.ts'

/**
 * Bone and muscle. Bone: no pain in the run and none for 24 hours after (vincent-2022). Muscle: pain-free
 * progression, with a limit that the therapist may sign.
 */
export function painFreeAnswer(watch: Watch): Answer {
  const { chart, session, rules } = watch
  const source = sourceOf(chart, 'painDuringMost')
  if (session.painDuring > rules.painDuringMost)
    return answer('flared', `Pain ${session.painDuring} of 10 during the run on ${session.day}.`, source)
  if (session.painAfter > rules.painAfterMost)
    return answer('flared', `Pain ${session.painAfter} of 10 after the run on ${session.day}.`, source)
  for (const { day, worstPain, morningPain } of mornings(watch)) {
    if (worstPain > mostOf(rules))
      return answer('flared', `Pain ${worstPain} of 10 after the run on ${session.day}.`, source)
    if (morningPain > rules.morningMost)
      return answer('flared', `Pain ${morningPain} of 10 on the morning of ${day}.`, source)
  }
  const silent = silence(watch)
  if (silent) return silent
  if (session.painBefore > rules.morningMost)
    return answer('provoked', `It hurt before the run on ${session.day} already.`, source)
  if (mornings(watch).some((morning) => morning.swelling !== 'no'))
    return answer(
      'provoked',
      `Swelling, or not sure of it, after the run on ${session.day}.`,
      'common-practice',
    )
  return answer('settled', `No more pain during the run of ${session.day} or in the 24 hours after.`, source)
}
