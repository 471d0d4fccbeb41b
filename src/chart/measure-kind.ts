import { z } from 'zod'
import { Label } from './ladder.ts'

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
    /** A raw total becomes a percentage: 100 * (raw - from) / span (T6). */
    percent: z.strictObject({ from: z.number(), span: z.number().positive() }).optional(),
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
