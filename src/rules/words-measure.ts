import { z } from 'zod'
import type { Tier } from '../chart/escalation.ts'
import { hear, type WordList } from './words.ts'

/** A sentence with what it should come to, as labelled sentences are kept: one JSON object a line. */
export const Labelled = z.object({
  text: z.string().min(1),
  expect: z.enum(['emergency', 'urgent', 'next', 'none']),
})
export type Labelled = z.infer<typeof Labelled>
export type Expected = Labelled['expect']

export type Measured = {
  /** For each tier: of what was heard as it, the share that was it; of what was it, the share that was heard as it. */
  readonly tiers: readonly {
    readonly tier: Expected
    readonly sentences: number
    readonly precision: number | undefined
    readonly recall: number | undefined
  }[]
  readonly wrong: readonly {
    readonly sentence: Labelled
    readonly heard: Expected
    readonly pattern: string | undefined
  }[]
}

/** Precision and recall of the list on labelled sentences. Undefined where there is nothing to divide by. */
export function measure(sentences: readonly Labelled[], list: WordList): Measured {
  const results = sentences.map((sentence) => {
    const [worst] = hear(sentence.text, list)
    return { sentence, heard: worst ? expectedOf[worst.tier] : ('none' as const), pattern: worst?.pattern }
  })
  const tiers = Labelled.shape.expect.options.map((tier) => {
    const was = results.filter(({ sentence }) => sentence.expect === tier)
    const heard = results.filter((result) => result.heard === tier)
    const right = was.filter((result) => result.heard === tier).length
    return {
      tier,
      sentences: was.length,
      precision: share(right, heard.length),
      recall: share(right, was.length),
    }
  })
  return { tiers, wrong: results.filter(({ sentence, heard }) => sentence.expect !== heard) }
}

const expectedOf: Record<Tier, Expected> = {
  emergency: 'emergency',
  urgent: 'urgent',
  'next-session': 'next',
}

function share(part: number, whole: number): number | undefined {
  return whole === 0 ? undefined : part / whole
}
