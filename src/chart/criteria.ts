import { z } from 'zod'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

export const LineStatus = z.enum(['met', 'not met', 'missing', 'expired'])
export type LineStatus = z.infer<typeof LineStatus>

/** One line of a criteria set as it stood when the set was signed. */
export const SignedLine = z.object({
  line: z.string(),
  status: LineStatus,
  value: z.number().optional(),
  day: Day.optional(),
})

/** A therapist's signature under a criteria set. It clears nobody by itself: a clearance may rest on it. */
export const CriteriaSigned = z.object({
  ...signed,
  kind: z.literal('criteria-signed'),
  /** `id@version` of the set. */
  set: z.string(),
  lines: z.array(SignedLine).min(1),
  /** True when lines that decide were not met; then `words` say why it was signed all the same. */
  against: z.boolean(),
  words: Words.optional(),
})
