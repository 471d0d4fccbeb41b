import { z } from 'zod'

/**
 * What the law of the place asks of a record. The figures are an example (cfr-164-526 for the dates, common practice
 * for the years); local law wins. The dates may be tightened, never loosened. A birth date is not kept, so the longer
 * period of minors is for the clinic lead to know.
 */
export const RecordSettings = z.strictObject({
  /** Which law this clinic follows, in its own words; printed with every date that comes from it. */
  law: z.string().min(1).max(300).default('Example: 45 CFR 164.526. Local law comes first.'),
  /** A request to amend is answered within this. */
  answerWithinDays: z.number().int().min(1).max(60).default(60),
  /** The one extension, told to the athlete in writing. */
  extensionDays: z.number().int().min(0).max(30).default(30),
  /** The therapist is reminded this long before the last day (common practice); after it the clinic lead hears too. */
  remindBeforeDays: z.number().int().min(1).max(60).default(14),
  /** A record is kept at least this long after its last page. */
  keepYears: z.number().int().min(1).max(100).default(10),
  /**
   * The prefix of the clinic's own code system and identifiers in exports. example.org is reserved for examples and
   * can belong to nobody, so nothing collides until the clinic puts an address of its own here.
   */
  namespace: z.url().default('https://example.org/sanderling'),
})
export type RecordSettings = z.infer<typeof RecordSettings>
