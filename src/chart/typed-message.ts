import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

/**
 * A plain message that an athlete typed to the bot. Its words are kept only when the word list heard something in
 * them, because then a human acts on them; of every other message only that it came and was answered (D23).
 */
export const TypedMessage = z.object({
  ...signed,
  kind: z.literal('typed-message'),
  day: Day,
  note: Words.optional(),
  /** What the word list heard; written by the rules, never by the athlete. */
  heard: z.array(Heard).optional(),
})
export type TypedMessage = z.infer<typeof TypedMessage>
