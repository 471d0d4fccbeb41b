import { z } from 'zod'
import { Label, SourceKey } from './sources.ts'

/**
 * The shapes of a number in `shared/tables`: its value, the source it comes from, how it was come by,
 * and where it holds. A table is parsed once, when its reader is loaded, so a clinic that edits a table
 * into something unreadable is told at the start and by name; below that, the numbers are facts.
 */
const origin = { source: SourceKey, label: Label, validity: z.string().min(1) }

const ascending = (pairs: readonly (readonly [number, number])[]): boolean =>
  pairs.every(([x], i) => i === 0 || x > (pairs[i - 1]?.[0] ?? Number.NEGATIVE_INFINITY))

export const CitedNumber = z.strictObject({ value: z.number(), ...origin })

export const CitedSpan = z.strictObject({
  value: z.tuple([z.number(), z.number()]).refine(([low, high]) => low < high, 'low before high'),
  ...origin,
})

/** Points (x, y) with rising x; between them `along` goes straight. */
export const CitedCurve = z.strictObject({
  value: z
    .array(z.tuple([z.number(), z.number()]))
    .min(2)
    .refine(ascending, 'points must rise in x'),
  ...origin,
})
