import type { Token } from './words-text.ts'

/** One place of a pattern: any of these words or phrases (`*` at the end of a word: any ending), or a fever in degrees. */
export type Item = { readonly phrases: readonly (readonly string[])[]; readonly fever: boolean }

/** Sequences that must all be in one clause, in any order, unless something of `unless` is there too. */
export type Part = {
  readonly sequences: readonly (readonly Item[])[]
  readonly unless: readonly Item[]
  /** How many words may stand between two places of a sequence. */
  readonly gap: number
}

type Groups = Readonly<Record<string, readonly string[]>>

/**
 * Reads one part of a pattern: `cannot get|catch breath* & @rest ! stairs`.
 * @throws RangeError when a group is not known or a place is empty
 */
export function partOf(pattern: string, groups: Groups, gap = 3): Part {
  const [wanted = '', ...unless] = pattern.split(' ! ')
  const itemsOf = (text: string) =>
    text
      .trim()
      .split(/\s+/)
      .map((place) => itemOf(place, groups))
  return { sequences: wanted.split(' & ').map(itemsOf), unless: unless.flatMap(itemsOf), gap }
}

/** The positions of the words that make a part out, for each way of finding it; empty when it is not there. */
export function waysIn(tokens: readonly Token[], part: Part): readonly (readonly number[])[] {
  let ways: readonly (readonly number[])[] = [[]]
  for (const sequence of part.sequences) {
    const found = waysOf(tokens, sequence, part.gap)
    ways = ways.flatMap((before) => found.map((way) => [...before, ...way])).slice(0, 64)
  }
  return ways
}

export function isIn(tokens: readonly Token[], item: Item): boolean {
  return tokens.some((_, i) => lengthsAt(tokens, i, item).length > 0)
}

/** Whether every place of a part has a word in the text at all: most patterns are out of the question at a glance. */
export function mayBeIn(vocabulary: readonly Token[], part: Part): boolean {
  return part.sequences.every((sequence) =>
    sequence.every(
      ({ phrases, fever }) =>
        (fever && vocabulary.some(({ value }) => isFever(value))) ||
        phrases.some((phrase) => phrase.every((word) => vocabulary.some((token) => isWord(token, word)))),
    ),
  )
}

export function wordsOf(part: Part): readonly string[] {
  return part.sequences.flatMap((sequence) => sequence.flatMap(({ phrases }) => phrases.flat()))
}

function itemOf(place: string, groups: Groups): Item {
  const fever = place.split('|').includes('#fever')
  const words = place.split('|').flatMap((one) => {
    if (one === '#fever') return []
    if (!one.startsWith('@')) return one
    const group = groups[one.slice(1)]
    if (!group) throw new RangeError(`there is no group "${one}"`)
    return group
  })
  const phrases = words.map((phrase) => phrase.split('_'))
  if (phrases.flat().some((word) => !/^[a-z0-9.]+\*?$/.test(word)))
    throw new RangeError(`"${place}" is not made of words in small letters`)
  return { phrases, fever }
}

function waysOf(
  tokens: readonly Token[],
  [first, ...rest]: readonly Item[],
  gap: number,
): readonly (readonly number[])[] {
  if (!first) return []
  let ways = tokens.flatMap((_, i) => lengthsAt(tokens, i, first).map((length) => span(i, length)))
  for (const item of rest)
    ways = ways.flatMap((way) => {
      const from = (way.at(-1) ?? 0) + 1
      return span(from, gap + 1).flatMap((at) =>
        lengthsAt(tokens, at, item).map((length) => [...way, ...span(at, length)]),
      )
    })
  return ways
}

/** How many words the item takes at a position; more than one answer when phrases of it begin alike. */
function lengthsAt(tokens: readonly Token[], at: number, { phrases, fever }: Item): readonly number[] {
  if (fever && isFever(tokens[at]?.value)) return [1]
  const lengths = phrases
    .filter((phrase) => phrase.every((word, i) => isWord(tokens[at + i], word)))
    .map((phrase) => phrase.length)
  return [...new Set(lengths)]
}

function isWord(token: Token | undefined, word: string): boolean {
  if (!token) return false
  return word.endsWith('*') ? token.text.startsWith(word.slice(0, -1)) : token.text === word
}

/** Degrees Celsius from 38.0, or Fahrenheit from 100.4. */
function isFever(value: number | undefined): boolean {
  return value !== undefined && ((value >= 38 && value < 43) || (value >= 100.4 && value < 110))
}

function span(from: number, length: number): number[] {
  return Array.from({ length }, (_, i) => from + i)
}
