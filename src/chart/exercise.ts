import { z } from 'zod'
import { Heard } from './alarm-words.ts'
import { Day } from './day.ts'
import { BodyWeightPct } from './dose.ts'
import { Pain, signed, Words } from './signing.ts'

export const ExerciseId = z.string().regex(/^[a-z0-9-]+$/, 'a name such as side-plank-on-ball')

/** In the treadmill (part of the weight carried by air) or off it. */
export const Where = z.enum(['in-treadmill', 'off-treadmill'])

/** One exercise as it was done. */
export const ExerciseLine = z.object({
  exercise: ExerciseId,
  where: Where,
  sets: z.number().int().min(0).max(50),
  repeats: z.number().int().min(0).max(500).optional(),
  holdSeconds: z.number().min(0).max(3600).optional(),
  bodyWeightPct: BodyWeightPct.optional(),
  pain: Pain.optional(),
  note: Words.optional(),
})

/** A timed stand on one leg. Its norms depend on cap and surface: both are kept with the value, sets never mixed. */
export const TimedBalance = z.object({
  side: z.enum(['left', 'right']),
  eyes: z.enum(['open', 'closed']),
  surface: z.enum(['floor', 'unstable']),
  seconds: z.number().min(0).max(600),
  capSeconds: z.number().min(1).max(600).optional(),
})

/** Exercises done on any day, logged by the athlete or by the strength coach, who may log nothing else. */
export const ExerciseDone = z.object({
  ...signed,
  kind: z.literal('exercise-done'),
  day: Day,
  exercises: z.array(ExerciseLine).max(40),
  balance: z.array(TimedBalance).max(10).optional(),
  note: Words.optional(),
  /** What the word list heard in the note. */
  heard: z.array(Heard).optional(),
})
