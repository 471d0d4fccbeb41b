/** A refusal is a value: what kind it is, and words that say what is accepted or what to do next. */
export type Refusal = {
  readonly refused: 'unreadable' | 'out-of-range' | 'say-more' | 'undefined' | 'breaks-published-shape'
  readonly words: string
}

/** A refusal without words helps nobody: that is a bug, and throws. */
export function refuse(refused: Refusal['refused'], words: string): Refusal {
  if (!/\w/.test(words)) throw new Error(`The refusal "${refused}" says nothing.`)
  return { refused, words }
}

export function isRefusal(answer: unknown): answer is Refusal {
  return typeof answer === 'object' && answer !== null && 'refused' in answer
}
