import { z } from 'zod'
import { Day, WallTime, Zone } from './day.ts'
import { Tissue } from './ladder.ts'
import { PersonId, signed, Words } from './signing.ts'

export const Enrolment = z.object({
  ...signed,
  kind: z.literal('enrolment'),
  timeZone: Zone,
  /** When the morning question comes, on the athlete's own wall. */
  promptAt: WallTime,
  therapist: PersonId,
  cover: PersonId.optional(),
  coaches: z.array(PersonId).default([]),
  /** Without it no coach sees the athlete at all. */
  consentToCoach: z.boolean(),
  bodyMassKg: z.number().min(25).max(250).optional(),
  heightCm: z.number().min(100).max(240).optional(),
  sex: z.enum(['f', 'm']).optional(),
  shortsSize: z.enum(['XS', 'S', 'M', 'L', 'XL', '2XL', '3XL']).optional(),
  /** Precautions that the therapist ticked as present; asked of the treating clinician. */
  precautions: z.array(z.string().max(100)).default([]),
})

export const Episode = z.object({
  ...signed,
  kind: z.literal('episode'),
  diagnosis: z.string().min(1).max(100),
  tissue: Tissue,
  site: z.string().max(100),
  side: z.enum(['left', 'right', 'both', 'none']),
  onsetDay: Day,
  surgeryDay: Day.optional(),
  /** The surgeon's word: no running before this day. */
  noRunBefore: Day.optional(),
  words: Words.optional(),
})
