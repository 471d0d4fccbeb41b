import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

/** A plain message that an athlete typed to the bot (D23). Without words when there were none: a file, say. */
export const TypedMessage = z.object({
  ...signed,
  kind: z.literal('typed-message'),
  day: Day,
  note: Words.optional(),
  /** What the word list heard; written by the rules, never by the athlete. */
  heard: z.array(Heard).optional(),
})
export type TypedMessage = z.infer<typeof TypedMessage>
