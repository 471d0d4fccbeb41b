import { z } from 'zod'
import { signed, Words } from './signing.ts'

/** The forms in which a record leaves the clinic. */
export const ExportForm = z.enum(['pdf', 'fhir', 'csv', 'ics', 'all'])
export type ExportForm = z.infer<typeof ExportForm>

/** Written before anything leaves: what was handed on, for whom, and how far the chart went. */
export const Exported = z.object({
  ...signed,
  kind: z.literal('exported'),
  what: ExportForm,
  /** Who is to have it: a name, a role, "the athlete". */
  for: Words.min(1).max(200),
  /** How many entries the chart had; what was written later is not in it. */
  chartLength: z.number().int().positive(),
})
export type Exported = z.infer<typeof Exported>
