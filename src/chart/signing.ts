import { z } from 'zod'
import { Instant } from './day.ts'

/** A person or an athlete, by an id of our own; the account in the chat workspace may change. */
export const PersonId = z.string().regex(/^[a-z0-9][a-z0-9-]{0,62}$/, 'an id such as "noor"')

/** Why something was decided: what was found, in plain words, and the source that says so. */
export const Because = z.object({ finding: z.string(), words: z.string(), source: z.string() })
export type Because = z.infer<typeof Because>

export const Pain = z.number().int().min(0).max(10)

/** Somebody's own words. */
export const Words = z.string().max(3000)

/** What every entry of an athlete's chart carries. */
export const signed = {
  id: z.string().min(1).max(200),
  athlete: PersonId,
  /** Who signed it; `sanderling` when a rule did. */
  author: z.string(),
  recordedAt: Instant,
}
