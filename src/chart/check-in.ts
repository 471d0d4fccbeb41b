import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { Pain, signed, Words } from './signing.ts'
import { SignAnswers } from './signs.ts'

export const Prompt = z.object({ ...signed, kind: z.literal('prompt'), day: Day })

export const CheckIn = z.object({
  ...signed,
  kind: z.literal('check-in'),
  day: Day,
  /** Worst pain at the injured place since the last check-in. */
  worstPain: Pain,
  /** Pain at the injured place now, getting up. */
  morningPain: Pain,
  /** More swollen than yesterday? An athlete cannot grade an effusion. */
  swelling: z.enum(['no', 'yes', 'not sure']),
  /** 1 good to 7 bad, each; compared with the athlete's own past only (T2). */
  sleep: z.number().int().min(1).max(7).optional(),
  fatigue: z.number().int().min(1).max(7).optional(),
  stress: z.number().int().min(1).max(7).optional(),
  soreness: z.number().int().min(1).max(7).optional(),
  /** Asked after surgery: degrees Celsius, or that it was not taken. Absent when it was not asked. */
  temperature: z.union([z.literal('not taken'), z.number().min(30).max(45)]).optional(),
  /** One answer for each group that was asked; an empty list is an explicit "none of these". */
  signs: SignAnswers,
  note: Words.optional(),
  /** What the word list heard in the note; written by the rules, never by the athlete. */
  heard: z.array(Heard).optional(),
})
export type CheckIn = z.infer<typeof CheckIn>

export const CheckInMissed = z.object({
  ...signed,
  kind: z.literal('check-in-missed'),
  day: Day,
  /** False when the question never went out: then the silence is ours. */
  asked: z.boolean(),
})

/** The one reminder of a day: the question again, once. */
export const CheckInReminded = z.object({ ...signed, kind: z.literal('check-in-reminded'), day: Day })
