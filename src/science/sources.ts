import { z } from 'zod'
import written from '../../shared/evidence/sources.json' with { type: 'json' }

/** How a number was come by. 'memory' is shown as such and never decides anything. */
export const Label = z.enum(['read', 'read-2nd', 'memory', 'derived', 'common-practice'])
export type Label = z.infer<typeof Label>

const Source = z.strictObject({
  cite: z.string().min(1),
  doi: z.string().startsWith('10.').optional(),
  address: z.url().optional(),
  seen: Label.exclude(['derived']),
  evidenceKey: z
    .string()
    .regex(/^S\d+[a-d]?$/)
    .optional(),
})
export type Source = z.infer<typeof Source>

/** Every publication that a number in this repository leans on, by the key that code, tables and tests use. */
export const sources: Readonly<Record<string, Source>> = z.record(z.string(), Source).parse(written)

/** A key of `sources`; anything else is refused with the key in the message. */
export const SourceKey = z.string().refine((key) => key in sources, {
  error: (issue) => `shared/evidence/sources.json knows no source "${issue.input}"`,
})
