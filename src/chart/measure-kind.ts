import { z } from 'zod'
import type { Questionnaire } from '../science/questionnaires.ts'
import { scores } from '../science/scores-table.ts'
import { Label } from './ladder.ts'

const forms = Object.keys(scores.questionnaires) as [Questionnaire, ...Questionnaire[]]

/** A measure that may be written into a chart: its unit, its limits, and which end is good. */
export const MeasureKind = z
  .strictObject({
    measure: z.string().regex(/^[a-z0-9-]+$/),
    title: z.string().min(1).max(80),
    unit: z.string().max(20),
    low: z.number(),
    high: z.number(),
    sides: z.enum(['one', 'both']),
    better: z.enum(['more', 'less']),
    whole: z.boolean().default(false),
    /** The only values there are, with their words; absent: any value inside the limits. */
    values: z.array(z.strictObject({ value: z.number(), words: z.string() })).optional(),
    /** The form whose total it is, where the total must be turned into its score first (T6). */
    questionnaire: z.enum(forms).optional(),
    /** Smallest change beyond noise, where it is published. */
    noise: z.number().positive().optional(),
    words: z.string().max(300).optional(),
    source: z.string().min(1),
    label: Label,
  })
  .refine((kind) => kind.low < kind.high, { path: ['high'], message: 'high must be above low' })
export type MeasureKind = z.infer<typeof MeasureKind>

/** shared/criteria/measures.json */
export const MeasureKinds = z.strictObject({ measures: z.array(MeasureKind).min(1) })
