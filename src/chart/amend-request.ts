import { z } from 'zod'
import { Day } from './day.ts'
import { signed, Words } from './signing.ts'

/** An athlete asks for a correction of the record. */
export const AmendmentRequest = z.object({
  ...signed,
  kind: z.literal('amendment-request'),
  /** The entry that is thought to be wrong; absent when something is missing. */
  entry: z.string().optional(),
  words: Words.min(1),
})

const ofRequest = { ...signed, request: z.string() }

/** The one extension, with the reason that the athlete is given. */
export const AmendmentRequestExtended = z.object({
  ...ofRequest,
  kind: z.literal('amendment-request-extended'),
  words: Words.min(1),
})

/** The clinic was reminded that an answer is due, before or after the last day for it. */
export const AmendmentRequestReminded = z.object({
  ...ofRequest,
  kind: z.literal('amendment-request-reminded'),
  why: z.enum(['near', 'passed']),
  answerBy: Day,
})

/** On what a refusal may rest; the first is read in cfr-164-526, the others are remembered. */
export const Ground = z.enum(['accurate and complete', 'not made here', 'not part of this record'])

/** Accepted: an entry was struck, or the words stand appended. Denied: the written reason stays in the record. */
export const AmendmentRequestAnswered = z.object({
  ...ofRequest,
  kind: z.literal('amendment-request-answered'),
  outcome: z.enum(['struck', 'appended', 'denied']),
  ground: Ground.optional(),
  words: Words.min(1),
})

/** An athlete disagrees with a refusal; it stays with the record and goes out with it. */
export const DisagreementStated = z.object({
  ...ofRequest,
  kind: z.literal('disagreement-stated'),
  words: Words.min(1),
})
