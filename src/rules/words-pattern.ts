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

/** Where an item was found in a clause, and how many words of it. */
type Place = { readonly at: number; readonly length: number }

/** The items that a clause has, each with its places in order. */
export type Found = ReadonlyMap<Item, readonly Place[]>

/** Reads the parts of patterns; a place that is written twice is one item, so that it is looked for once. */
export type Reader = {
  readonly partOf: (pattern: string, gap?: number) => Part
  readonly items: () => readonly Item[]
}

/** How far apart the sequences of one part may begin: further on, a hurried note speaks of something else. */
const reach = 28

/** @throws RangeError from `partOf` when a group is not known or a place is empty */
export function readerOf(groups: Groups): Reader {
  const known = new Map<string, Item>()
  const itemNamed = (place: string) => {
    const item = known.get(place) ?? itemOf(place, groups)
    known.set(place, item)
    return item
  }
  const itemsOf = (text: string) => text.trim().split(/\s+/).map(itemNamed)
  return {
    partOf: (pattern, gap = 3) => {
      const [wanted = '', ...unless] = pattern.split(' ! ')
      return { sequences: wanted.split(' & ').map(itemsOf), unless: unless.flatMap(itemsOf), gap }
    },
    items: () => [...known.values()],
  }
}

/** The positions of the words that make a part out, for each way of finding it; empty when it is not there. */
export function waysIn(found: Found, part: Part): readonly (readonly number[])[] {
  if (!part.sequences.every((sequence) => sequence.every((item) => found.has(item)))) return []
  let ways: readonly (readonly number[])[] = [[]]
  for (const sequence of part.sequences) {
    const more = waysOf(found, sequence, part.gap)
    ways = ways
      .flatMap((before) => more.map((way) => [...before, ...way]))
      .filter((way) => Math.max(...way) - Math.min(...way) <= reach)
      .slice(0, 64)
  }
  return ways
}

export function wordsOf(part: Part): readonly string[] {
  return part.sequences.flatMap((sequence) => sequence.flatMap(({ phrases }) => phrases.flat()))
}

function itemOf(place: string, groups: Groups): Item {
  const words = place.split('|').flatMap((one) => {
    if (!one.startsWith('@')) return one
    const group = groups[one.slice(1)]
    if (!group) throw new RangeError(`there is no group "${one}"`)
    return group
  })
  const phrases = words.filter((word) => word !== '#fever').map((phrase) => phrase.split('_'))
  if (phrases.flat().some((word) => !/^[a-z0-9.]+\*?$/.test(word)))
    throw new RangeError(`"${place}" is not made of words in small letters`)
  return { phrases, fever: words.includes('#fever') }
}

function waysOf(
  found: Found,
  [first, ...rest]: readonly Item[],
  gap: number,
): readonly (readonly number[])[] {
  const placesOf = (item: Item | undefined) => (item ? (found.get(item) ?? []) : [])
  let ways = placesOf(first).map(({ at, length }) => span(at, length))
  for (const item of rest)
    ways = ways.flatMap((way) => {
      const from = (way.at(-1) ?? 0) + 1
      return placesOf(item)
        .filter(({ at }) => at >= from && at <= from + gap)
        .map(({ at, length }) => [...way, ...span(at, length)])
    })
  return ways
}

/** What finds the items of a list in a clause by looking each word up once, however long the list is. */
export function finderOf(items: readonly Item[]): (tokens: readonly Token[]) => Found {
  const fevers = items.filter(({ fever }) => fever)
  const starts = new Map<string, { readonly item: Item; readonly phrase: readonly string[] }[]>()
  for (const item of items)
    for (const phrase of item.phrases) {
      const [first = ''] = phrase
      starts.set(first, [...(starts.get(first) ?? []), { item, phrase }])
    }
  return (tokens) => {
    const found = new Map<Item, Place[]>()
    const add = (item: Item, place: Place) => {
      const places = found.get(item)
      if (!places) found.set(item, [place])
      else if (!places.some(({ at, length }) => at === place.at && length === place.length))
        places.push(place)
    }
    for (const [at, { text, value }] of tokens.entries()) {
      if (isFever(value)) for (const item of fevers) add(item, { at, length: 1 })
      const forms = [text, ...Array.from(text, (_, i) => `${text.slice(0, i + 1)}*`)]
      for (const form of forms)
        for (const { item, phrase } of starts.get(form) ?? [])
          if (phrase.every((word, i) => isWord(tokens[at + i], word)))
            add(item, { at, length: phrase.length })
    }
    return found
  }
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
