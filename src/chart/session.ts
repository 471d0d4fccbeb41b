import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { BodyWeightPct, DoneBout } from './dose.ts'
import { ExerciseLine, TimedBalance } from './exercise.ts'
import { Pain, signed, Words } from './signing.ts'

/** Soreness at the injured place, not ordinary soreness of muscles, by the rows of the soreness rules. */
export const Soreness = z.enum(['none', 'warm-up-gone', 'warm-up-stayed', 'went-and-came-back', 'after'])
export type Soreness = z.infer<typeof Soreness>

/** How the gait looked to staff. A film is never kept here: only the words that say where it is. */
export const GaitSeen = z
  .object({
    looked: z.enum(['even', 'limp']),
    side: z.enum(['left', 'right']).optional(),
    note: Words.optional(),
    filmKeptAt: z.string().max(300).optional(),
  })
  .refine((seen) => seen.looked === 'even' || seen.side !== undefined, {
    path: ['side'],
    message: 'say on which side the limp is',
  })

/** Something that was turned down, or ended, while the athlete ran. The bouts hold what came of it. */
export const LiveChange = z.object({
  atMinute: z.number().min(0).max(240),
  why: z.enum(['pain', 'gait', 'breath', 'other']),
  pain: Pain.optional(),
  bodyWeightPct: BodyWeightPct.optional(),
  speedMps: z.number().min(0).max(10).optional(),
  stopped: z.boolean().optional(),
})

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
  /** Asked for joints; without it there is no step up after a joint. */
  soreness: Soreness.optional(),
  changes: z.array(LiveChange).max(20).optional(),
  gait: GaitSeen.optional(),
  exercises: z.array(ExerciseLine).max(40).optional(),
  balance: z.array(TimedBalance).max(10).optional(),
  note: Words.optional(),
  /** What the word list heard in the note. */
  heard: z.array(Heard).optional(),
})
export type SessionDone = z.infer<typeof SessionDone>

/** A prescribed run that was not run: until it is logged or skipped, it counts as possibly run. */
export const RunSkipped = z.object({
  ...signed,
  kind: z.literal('run-skipped'),
  day: Day,
  words: Words.optional(),
})
