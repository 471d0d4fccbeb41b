import { z } from 'zod'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

/** A week that a therapist has looked through, and what comes next. What was shown can be computed again from the chart. */
export const Review = z.object({
  ...signed,
  kind: z.literal('review'),
  /** The last day of the week that was looked at. */
  day: Day,
  next: z.enum(['go on', 'change the plan', 'change the clearance', 'see in person', 'end']),
  words: Words.optional(),
})
