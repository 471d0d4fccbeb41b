import { escaped } from './blocks.ts'

/** A message that only the presser sees, and that leaves the pressed one alone. */
export function onlyYou(words: string) {
  return { response_type: 'ephemeral' as const, replace_original: false, text: escaped(words) }
}
