import { z } from 'zod'
import written from '../../shared/tables/scores.json' with { type: 'json' }
import { CitedNumber, CitedSpan } from './cited.ts'

const Questionnaire = z.strictObject({
  bounds: CitedSpan,
  better: z.enum(['higher', 'lower']),
  /** Whether the score is the total as a share of its bounds. */
  percent: z.boolean(),
})
const size = z.strictObject({ points: CitedNumber, pct: CitedNumber })
const norm = z.strictObject({ mean: CitedNumber, sd: CitedNumber })

/** Bounds, noise and norms of clinical scores, from `shared/tables/scores.json`. */
export const scores = z
  .strictObject({
    questionnaires: z.strictObject({
      ikdc: Questionnaire,
      'ikdc-from-1': Questionnaire,
      'pedi-ikdc': Questionnaire,
      'koos-subscale': Questionnaire,
      'acl-rsi': Questionnaire,
      lefs: Questionnaire,
      'tsk-11': Questionnaire,
      'visa-a': Questionnaire,
      'kos-adls': Questionnaire,
      'wellness-4': Questionnaire,
      'wellness-5': Questionnaire,
    }),
    lefsMdc90: CitedNumber,
    koosItemMost: CitedNumber,
    koosFewestShare: CitedNumber,
    hopSemPct: CitedSpan,
    hopMdc90Pct: CitedSpan,
    timedHopInverted: CitedNumber,
    reachDifferenceCm: CitedNumber,
    painChange: z.strictObject({ slight: size, important: size }),
    plankMenSeconds: norm,
    plankWomenSeconds: norm,
  })
  .parse(written)
