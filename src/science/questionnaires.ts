import { within } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'
import { scores } from './scores-table.ts'
import { mean } from './statistics.ts'

/**
 * Questionnaires by their TOTAL. Items are owned or licensed, so none is printed or asked here; a total
 * outside its bounds is refused, because two codings of one form look alike (an IKDC total of 60 is 69.0
 * coded from 0 and 48.3 coded from 1).
 */
export type Questionnaire = keyof typeof scores.questionnaires

export type Score = {
  readonly total: number
  /** What is compared and shown: the total, or its share of the bounds where the form says so. */
  readonly score: number
  readonly better: 'higher' | 'lower'
}

export function scoreOf(questionnaire: Questionnaire, total: number): Score | Refusal {
  const { bounds, better, percent } = scores.questionnaires[questionnaire]
  const [least, most] = bounds.value
  if (!within(total, [least, most]))
    return refuse('out-of-range', `A ${questionnaire} total lies from ${least} to ${most}.`)
  return { total, score: percent ? (100 * (total - least)) / (most - least) : total, better }
}

/** A KOOS subscale from its answered items (0-4, null for none): 100 is well; half must be answered [koos-2012]. */
export function koosSubscale(items: readonly (number | null)[]): number | Refusal {
  const most = scores.koosItemMost.value
  const answered = items.filter((item) => item !== null)
  if (answered.some((item) => !within(item, [0, most])))
    return refuse('out-of-range', `Items lie from 0 to ${most}.`)
  if (answered.length === 0 || answered.length < items.length * scores.koosFewestShare.value)
    return refuse('say-more', 'No score: at least half of the items of a subscale must be answered.')
  return 100 - (100 * mean(answered)) / most
}

/** ACL-RSI from its 12 answers of 0-100: their mean [acl-rsi]. Readiness talk, never an injury-risk gate. */
export function aclRsi(items: readonly number[]): number | Refusal {
  const [least, most] = scores.questionnaires['acl-rsi'].bounds.value
  if (items.length !== 12 || items.some((item) => !within(item, [least, most])))
    return refuse('say-more', `Twelve answers from ${least} to ${most} are needed.`)
  return mean(items)
}

/** Whether a LEFS change is at least the 9 points that rise above noise [binkley-1999]. */
export function lefsChangeBeyondNoise(before: number, after: number): boolean {
  return Math.abs(after - before) >= scores.lefsMdc90.value
}
