import type { Ladder, Move, Response } from '../chart/ladder.ts'
import type { Because } from '../chart/signing.ts'

export type Step = { readonly move: Move; readonly rung: number; readonly because: Because }

/**
 * The next rung after a response: up only when it settled, often enough, and not faster than the ladder allows.
 * Counted from 1. The limits of days and the ceiling come after this and win over it.
 */
export function nextStep(
  ladder: Ladder,
  at: { readonly rung: number; readonly timesDone: number; readonly rungsUpIn7Days: number },
  response: Response,
): Step {
  const { rung } = at
  const needed = ladder.rungs[rung - 1]?.sessions.low ?? 1
  const step = (
    move: Move,
    to: number,
    finding: string,
    words: string,
    source = ladder.sources[0]?.key ?? '',
  ) => ({
    move,
    rung: to,
    because: { finding, words, source },
  })
  switch (response) {
    case 'unknown':
      return step(
        'repeat',
        rung,
        'no-answer',
        'Without an answer the morning after there is no step up.',
        'common-practice',
      )
    case 'provoked':
      return step('repeat', rung, 'provoked', 'The last run left a mark: the same rung again.')
    case 'flared':
      return step(
        'back',
        Math.max(rung - 1, 1),
        'flared',
        'The last run hurt: one rung back, with more support.',
      )
    case 'settled':
      if (rung >= ladder.rungs.length)
        return step(
          'repeat',
          rung,
          'top-rung',
          'The last rung of the ladder: your therapist decides what comes next.',
        )
      if (at.timesDone < needed)
        return step('repeat', rung, 'not-often-enough', `This rung is done ${needed} times before the next.`)
      if (at.rungsUpIn7Days >= ladder.limits.rungsUpPer7Days)
        return step(
          'repeat',
          rung,
          'too-soon',
          `No more than ${ladder.limits.rungsUpPer7Days} rung up in 7 days.`,
        )
      return step('up', rung + 1, 'settled-and-done', 'Done often enough and settled each time: one rung up.')
    default:
      return response satisfies never
  }
}
