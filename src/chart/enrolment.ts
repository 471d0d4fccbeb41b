import { z } from 'zod'
import { Day, WallTime, Zone } from './day.ts'
import { BodyWeightPct } from './dose.ts'
import { Tissue } from './ladder.ts'
import { PersonId, signed, Words } from './signing.ts'

/**
 * Precautions of running under air pressure, remembered and not read in any source: no list was found. Each is
 * worded as a question to the treating clinician; the bot never decides about one.
 */
export const precautions = {
  'unstable-fracture': 'An unstable or unhealed fracture',
  clot: 'A clot in a leg or lung, now or lately, or medicine against clots',
  'blood-pressure-or-heart': 'Blood pressure that is not controlled, or heart disease',
  'open-wound': 'An open wound, a skin infection or stitches under the seal',
  pregnancy: 'Pregnancy, or possible pregnancy',
  'recent-abdominal-surgery': 'Surgery of belly or groin, or a hernia, not cleared for pressure',
  'pressure-sensitive': 'Loss of feeling, or a device or catheter, under the seal',
} as const
export const Precaution = z.enum(Object.keys(precautions) as [keyof typeof precautions])
export type Precaution = z.infer<typeof Precaution>

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
  /** Those that are present. An empty list is an explicit "none of these"; each one present holds running at first. */
  precautions: z.array(Precaution),
})

/** Each setting by itself; absent: the surgeon said nothing of it. `until` is the last day they hold. */
export const SurgeonLimits = z.object({
  bodyWeightPct: BodyWeightPct.optional(),
  speedMps: z.number().positive().max(10).optional(),
  runMinutes: z.number().positive().max(240).optional(),
  until: Day.optional(),
  words: Words.optional(),
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
  /** The surgeon's own limits; they win over every plan and clearance until they end. */
  surgeonLimits: SurgeonLimits.optional(),
  /** How likely the site is to heal badly; not said counts as high (T3: not the same as the field below). */
  healingRisk: z.enum(['high', 'low']).optional(),
  /** A site that is read as a marker of low bone health (T3). */
  lowBoneHealthSite: z.boolean().optional(),
  /** Reconstruction with a repaired meniscus starts running later than without. */
  meniscusRepair: z.boolean().optional(),
  words: Words.optional(),
})
