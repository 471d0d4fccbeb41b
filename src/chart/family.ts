import { z } from 'zod'
import { Label } from './ladder.ts'
import { Pain } from './signing.ts'

const Days = z.number().int().min(0).max(14)

/**
 * The rules of pain of one tissue, as a therapist signs them. The defaults and what may be chosen stand in
 * shared/criteria/families.json with their sources; where sources disagree the default is the stricter.
 */
export const FamilySettings = z.strictObject({
  /** Most pain accepted in the run. */
  painDuringMost: Pain,
  /** Most pain accepted straight after and later that day. */
  painAfterMost: Pain,
  /** Most pain accepted getting up on the mornings that are watched. */
  morningMost: Pain,
  /** How much worse than the morning before the run those mornings may be. */
  morningRiseMost: Pain,
  /** 24: the next morning must be answered, the one after counts when it is there. 48: both must. */
  hoursWatched: z.union([z.literal(24), z.literal(48)]),
  /** How much the worst morning may climb from one week to the next; absent: not looked at. */
  weeklyClimbMost: Pain.optional(),
  /** A climb of this much goes one rung back. */
  weeklyClimbBack: Pain.optional(),
  /** Pain above the limit in the run: no running until a therapist has looked. */
  holdOnPainDuring: z.boolean(),
  /** Whether the soreness rows must be answered for a step up. */
  sorenessRows: z.boolean(),
  /** Days without a run after soreness that stayed, or went and came back; and after soreness that came later. */
  restDaysWhenSorenessStays: Days,
  restDaysWhenSoreAfter: Days,
  /** Rungs up in 7 days, where stricter than the ladder's own. */
  rungsUpPer7Days: z.number().int().min(1).max(7),
  /** Whether a step up is offered at once or proposed to the therapist first. */
  stepUp: z.enum(['offer', 'propose']),
  /** On pain in the run: points of body weight off first, then this share of the speed. */
  lowerBodyWeightPct: z.number().int().min(1).max(50),
  lowerSpeedPct: z.number().int().min(1).max(50),
})
export type FamilySettings = z.infer<typeof FamilySettings>
export type Setting = keyof FamilySettings

const setting = FamilySettings.shape

/** A family as clinicians keep it: of each setting the default, what may be chosen instead, and why. */
export const Family = z.strictObject({
  about: z.string().min(1),
  settings: z.strictObject({
    painDuringMost: written(setting.painDuringMost),
    painAfterMost: written(setting.painAfterMost),
    morningMost: written(setting.morningMost),
    morningRiseMost: written(setting.morningRiseMost),
    hoursWatched: written(setting.hoursWatched),
    weeklyClimbMost: written(Pain).optional(),
    weeklyClimbBack: written(Pain).optional(),
    holdOnPainDuring: written(setting.holdOnPainDuring),
    sorenessRows: written(setting.sorenessRows),
    restDaysWhenSorenessStays: written(setting.restDaysWhenSorenessStays),
    restDaysWhenSoreAfter: written(setting.restDaysWhenSoreAfter),
    rungsUpPer7Days: written(setting.rungsUpPer7Days),
    stepUp: written(setting.stepUp),
    lowerBodyWeightPct: written(setting.lowerBodyWeightPct),
    lowerSpeedPct: written(setting.lowerSpeedPct),
  } satisfies Record<Setting, unknown>),
})
export type Family = z.infer<typeof Family>

/** shared/criteria/families.json */
export const Families = z.strictObject({ bone: Family, joint: Family, tendon: Family, muscle: Family })
export type Families = z.infer<typeof Families>

/** The defaults of a family, as a plan would carry them. */
export function defaultsOf(family: Family): FamilySettings {
  const values = Object.entries(family.settings).map(([name, one]) => [
    name,
    (one as { value: unknown }).value,
  ])
  return FamilySettings.parse(Object.fromEntries(values))
}

function written<T extends z.ZodType<number | boolean | string>>(shape: T) {
  return z
    .strictObject({
      value: shape,
      allowed: z.array(shape).min(1),
      source: z.string().min(1),
      label: Label,
      words: z.string().max(400).optional(),
    })
    .refine((one: { value?: unknown; allowed: readonly unknown[] }) => one.allowed.includes(one.value), {
      path: ['value'],
      message: 'the default must be among what is allowed',
    })
}
