import type { Ladder, Move, Response } from '../chart/ladder.ts'
import type { Because } from '../chart/signing.ts'

export type Step = { readonly move: Move; readonly rung: number; readonly because: Because }

/** Where a step starts from. `rungsUpMost` is the tissue's own limit, where it is stricter than the ladder's. */
export type Footing = {
  readonly rung: number
  readonly timesDone: number
  readonly rungsUpIn7Days: number
  readonly rungsUpMost?: number
}

/**
 * The next rung after a response: up only when it settled, often enough, and not faster than the ladder allows.
 * Counted from 1. The limits of days and the ceiling come after this and win over it.
 */
export function nextStep(ladder: Ladder, at: Footing, response: Response): Step {
  const { rung } = at
  const source = ladder.sources[0]?.key ?? 'common-practice'
  const stay = (finding: string, words: string, from = source): Step => ({
    move: 'repeat',
    rung,
    because: { finding, words, source: from },
  })
  switch (response) {
    case 'unknown':
      return stay('no-answer', 'Without an answer there is no step up.', 'common-practice')
    case 'provoked':
      return stay('provoked', 'The last run left a mark: the same rung again.')
    case 'flared':
      return {
        move: 'back',
        rung: Math.max(rung - 1, 1),
        because: { finding: 'flared', words: backWords(ladder, rung), source },
      }
    case 'settled':
      return up(ladder, at, stay, source)
    default:
      return response satisfies never
  }
}

function up(
  ladder: Ladder,
  at: Footing,
  stay: (finding: string, words: string, from?: string) => Step,
  source: string,
): Step {
  const needed = ladder.rungs[at.rung - 1]?.sessions.low ?? 1
  const most = Math.min(ladder.limits.rungsUpPer7Days, at.rungsUpMost ?? Number.POSITIVE_INFINITY)
  if (at.rung >= ladder.rungs.length)
    return stay('top-rung', 'The last rung of the ladder: your therapist decides what comes next.')
  if (at.timesDone < needed)
    return stay('not-often-enough', `This rung is done ${counted(needed, 'time')} before the next.`)
  if (at.rungsUpIn7Days >= most)
    return stay('too-soon', `No more than ${counted(most, 'rung')} up in 7 days.`)
  const words = 'Done often enough and settled each time: one rung up.'
  return { move: 'up', rung: at.rung + 1, because: { finding: 'settled-and-done', words, source } }
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

function backWords(ladder: Ladder, rung: number): string {
  if (rung <= 1) return 'The last run hurt: the first rung again, at its easiest.'
  const [here, below] = [ladder.rungs[rung - 1], ladder.rungs[rung - 2]]
  const lighter = here && below && below.bodyWeightPct < here.bodyWeightPct
  return `The last run hurt: one rung back${lighter ? ', with more support' : ''}.`
}
