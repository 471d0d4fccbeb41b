import { z } from 'zod'
import { Day } from './day.ts'
import { BodyWeightPct, Range } from './dose.ts'
import { ExerciseId, Where } from './exercise.ts'
import { Label, Tissue } from './ladder.ts'

/** One exercise of a programme: sets of repeats, or of holds in seconds. */
export const Exercise = z
  .strictObject({
    exercise: ExerciseId,
    title: z.string().min(1).max(80),
    where: Where,
    sets: Range,
    repeats: Range.optional(),
    holdSeconds: Range.optional(),
    eachSide: z.boolean().default(false),
    /** Percent carried, for exercises in the treadmill (T1). */
    bodyWeightPct: BodyWeightPct.optional(),
    /** How, what must stand before the harder form is taken, and when to stop. */
    words: z.string().min(1).max(300),
    source: z.string(),
    label: Label,
  })
  .refine((one) => (one.repeats === undefined) !== (one.holdSeconds === undefined), {
    message: 'repeats or holdSeconds, one of them',
  })
  .refine((one) => one.where === 'off-treadmill' || one.bodyWeightPct !== undefined, {
    path: ['bodyWeightPct'],
    message: 'an exercise in the treadmill says the percent of body weight carried',
  })
export type Exercise = z.infer<typeof Exercise>

/** What is done on days without a run, as clinicians keep it in shared/protocols/exercises/. */
export const Programme = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  version: z.number().int().positive(),
  effective: Day,
  title: z.string().min(1),
  about: z.string().min(1),
  tissues: z.array(Tissue).min(1),
  bodyWeight: z.literal('carried', {
    error: 'must be "carried": bodyWeightPct is the percent of body weight carried',
  }),
  exercises: z.array(Exercise).min(1).max(30),
})
export type Programme = z.infer<typeof Programme>
