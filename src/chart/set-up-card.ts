import { z } from 'zod'
import type { Tissue } from './ladder.ts'

const Line = z.string().min(1).max(200)
const Lines = z.array(Line).min(1).max(12)

/**
 * The set-up card of a session in the LBPP treadmill, shared/words/set-up-card.json: facts of the trade with no
 * published source. The clinic may edit every line. In `onPain`, words in braces are filled in from the
 * prescription: {painMost}, {lowerBodyWeightPct}, {leastBodyWeightPct}, {lowerSpeedPct}.
 */
export const SetUpCard = z.strictObject({
  label: z.literal('common-practice', { error: 'must be "common-practice": no source says these things' }),
  shorts: z.strictObject({ sizes: z.array(z.string().min(1).max(5)).min(1), words: Line }),
  before: Lines,
  start: Lines,
  onPain: z.strictObject({ inTreadmill: Lines, elsewhere: Lines }),
  stopWhen: z.strictObject({
    always: Lines,
    bone: Lines,
    joint: Lines,
    tendon: Lines,
    muscle: Lines,
  } satisfies Record<Tissue | 'always', unknown>),
})
export type SetUpCard = z.infer<typeof SetUpCard>
