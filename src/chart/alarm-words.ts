import { z } from 'zod'
import { Tier } from './escalation.ts'

/** What a sentence can be about when it must reach a human. Each belongs to a row of the red flags. */
export const Topic = z.enum([
  'breath',
  'chest',
  'collapse',
  'heart-rhythm',
  'calf',
  'infection',
  'knee',
  'bone-at-night',
  'cannot-walk',
  'new-injury',
  'compartment',
  'tight-in-runs',
  'saddle',
  'head',
  'heat',
  'self-harm',
  'mood',
  'eating',
  'energy',
  'foot',
  'severe-pain',
  'bleeding',
  'allergy',
  'precaution',
  'worry',
])
export type Topic = z.infer<typeof Topic>

/** What goes to the licensed person and to nobody else. */
export const supportTopics: ReadonlySet<Topic> = new Set(['self-harm', 'mood', 'eating'])

/** An alarm heard in somebody's own words; written down with the entry, so later edits of the list never reach back. */
export const Heard = z.object({
  topic: Topic,
  tier: Tier,
  /** The pattern of the list that matched. */
  pattern: z.string(),
  /** The sentence as it was written; for the human who is called, and nobody else. */
  sentence: z.string().max(3000),
})
export type Heard = z.infer<typeof Heard>
