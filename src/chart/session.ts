import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { DoneBout } from './dose.ts'
import { Pain, signed, Words } from './signing.ts'

export const SessionDone = z.object({
  ...signed,
  kind: z.literal('session-done'),
  day: Day,
  /** The prescription it followed; absent when none was in force. */
  about: z.string().optional(),
  rung: z.number().int().positive(),
  bouts: z.array(DoneBout).min(1).max(50),
  painBefore: Pain,
  painDuring: Pain,
  painAfter: Pain,
  /** Session effort on the 0-10 category-ratio scale. */
  rpe: z.number().min(0).max(10),
  note: Words.optional(),
  /** What the word list heard in the note. */
  heard: z.array(Heard).optional(),
})
export type SessionDone = z.infer<typeof SessionDone>
