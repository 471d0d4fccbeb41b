import { z } from 'zod'
import { State } from './clearance.ts'
import { Day } from './day.ts'
import { Label, Tissue } from './ladder.ts'

const Id = z.string().regex(/^[a-z0-9-]+$/)

const line = {
  line: Id,
  words: z.string().min(1).max(300),
  source: z.string().min(1),
  label: Label,
  /** False: shown beside the others, and decides nothing. */
  gates: z.boolean().default(true),
  /** How old a measurement may be; absent: it does not age. */
  expiresAfterDays: z.number().int().min(1).max(365).optional(),
  /** For which episodes the line counts; absent: all. A risk that nobody wrote down counts as high. */
  when: z
    .union([
      z.strictObject({ healingRisk: z.literal('high') }),
      z.strictObject({ meniscusRepair: z.boolean() }),
    ])
    .optional(),
}

const Measured = z.strictObject({
  ...line,
  measure: Id,
  /** The value itself, or the injured side in percent of the other. */
  as: z.enum(['value', 'symmetry']),
  atLeast: z.number().optional(),
  above: z.number().optional(),
  atMost: z.number().optional(),
  below: z.number().optional(),
})
export type Measured = z.infer<typeof Measured>

const Since = z.strictObject({
  ...line,
  since: z.enum(['onset', 'surgery']),
  weeks: z.number().int().positive().optional(),
  /** By the calendar, not multiples of thirty days (T12). */
  months: z.number().int().positive().optional(),
})
export type Since = z.infer<typeof Since>

const Ran = z.strictObject({
  ...line,
  /** One session in the log: more minutes of running than this, above this percent carried, with no more pain. */
  ran: z.strictObject({ aboveMinutes: z.number(), aboveBodyWeightPct: z.number(), painMost: z.number() }),
})
export type Ran = z.infer<typeof Ran>

const Line = z.union([Measured, Since, Ran]).superRefine((one, issues) => {
  const refuse = (message: string) => issues.addIssue({ code: 'custom', message })
  if (one.label === 'memory' && one.gates) refuse('a remembered figure never decides: "gates" must be false')
  if ('measure' in one) {
    const limits = [one.atLeast, one.above, one.atMost, one.below].filter((limit) => limit !== undefined)
    if (limits.length !== 1) refuse('atLeast, above, atMost or below, one of them')
  }
  if ('since' in one && (one.weeks === undefined) === (one.months === undefined))
    refuse('weeks or months, one of them')
})
export type CriteriaLine = z.infer<typeof Line>

/** What must stand before a step, as clinicians keep it in shared/criteria/. It never passes by itself. */
export const CriteriaSet = z.strictObject({
  id: Id,
  version: z.number().int().positive(),
  effective: Day,
  title: z.string().min(1),
  about: z.string().min(1),
  diagnoses: z.array(z.string()).min(1),
  tissues: z.array(Tissue).min(1),
  /** The step of the continuum that it is asked for. */
  towards: State,
  lines: z.array(Line).min(1),
})
export type CriteriaSet = z.infer<typeof CriteriaSet>
