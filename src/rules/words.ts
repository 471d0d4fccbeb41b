import { z } from 'zod'
import { type Heard, Topic } from '../chart/alarm-words.ts'
import { Tier } from '../chart/escalation.ts'
import { redFlags } from './red-flags.ts'
import { type Found, finderOf, type Part, readerOf, waysIn, wordsOf } from './words-pattern.ts'
import { clausesOf, type Spelling, spellingOf, type Token } from './words-text.ts'

const Phrases = z.array(z.string().min(1))

/** The list of words as clinicians keep it in shared/words/alarms.json; its `about` explains the patterns. */
export const AlarmWords = z.strictObject({
  about: z.array(z.string()).min(1),
  version: z.number().int().positive(),
  /** Sets of words that patterns name with `@`. */
  groups: z.record(z.string().regex(/^[a-z-]+$/), Phrases),
  /** The right word, and how it is written in a hurry. */
  misspelt: z.record(z.string(), Phrases),
  /** Words that are understood with a slip of the finger in them. */
  canSlip: Phrases,
  /** Real words that must not be taken for misspelt alarms. */
  realWords: Phrases,
  /** What turns a sign into its absence, and the little words that may stand in between. */
  negators: Phrases.min(1),
  between: Phrases,
  /** Where what was denied ends: from here on a new clause begins; a_b means right behind. */
  contrasts: Phrases,
  /** People other than the writer, and what shows that they only tell of the writer. */
  others: Phrases,
  tellers: Phrases,
  /** Films and books: what stands in the same clause happened in them. */
  tales: Phrases,
  /** Sayings that mean nothing of the kind; only their own words are passed over. */
  idioms: Phrases,
  alarms: z
    .array(z.strictObject({ topic: Topic, tier: Tier, patterns: z.array(z.string().min(1)).min(1) }))
    .min(1, 'is empty: without words nothing that an athlete writes can ring'),
})
export type AlarmWords = z.infer<typeof AlarmWords>

type Alarm = {
  readonly topic: Topic
  readonly tier: Tier
  readonly pattern: string
  readonly parts: readonly Part[]
}

/** The list, read and ready. */
export type WordList = {
  readonly alarms: readonly Alarm[]
  readonly idioms: readonly Part[]
  readonly spelling: Spelling
  /** Finds what the patterns and idioms are made of in the words of a clause. */
  readonly find: (tokens: readonly Token[]) => Found
  readonly words: Pick<
    AlarmWords,
    'negators' | 'between' | 'others' | 'tellers' | 'tales' | 'contrasts' | 'canSlip'
  >
}

/** @throws RangeError for a pattern that cannot be read; `wordFaults` says which */
export function wordList(list: AlarmWords): WordList {
  const { groups, idioms, negators, between, others, tellers, tales, contrasts, canSlip } = list
  const { partOf, items } = readerOf(groups)
  const alarms = list.alarms.flatMap(({ topic, tier, patterns }) =>
    patterns.map((pattern) => ({
      topic,
      tier,
      pattern,
      parts: pattern.split(' && ').map((part) => partOf(part)),
    })),
  )
  const sayings = idioms.map((idiom) => partOf(idiom, 0))
  return {
    alarms,
    idioms: sayings,
    find: finderOf(items()),
    spelling: spellingOf(
      list,
      alarms.flatMap(({ parts }) => parts.flatMap(wordsOf)),
    ),
    words: { negators, between, others, tellers, tales, contrasts, canSlip },
  }
}

/** What cannot be used of a list: an unreadable pattern, or a topic and tier that no row of the red flags hears. */
export function wordFaults(
  list: AlarmWords,
): { readonly at: readonly (string | number)[]; readonly words: string }[] {
  const heard = new Set<string>(redFlags.flatMap((flag) => flag.hears))
  const { partOf } = readerOf(list.groups)
  return list.alarms.flatMap(({ topic, tier, patterns }, i) => [
    ...(heard.has(`${topic}/${tier}`)
      ? []
      : [{ at: ['alarms', i, 'topic'], words: `no red flag hears "${topic}" at the tier "${tier}"` }]),
    ...patterns.flatMap((pattern, j) => {
      try {
        for (const part of pattern.split(' && ')) partOf(part)
        return []
      } catch (error) {
        return [
          { at: ['alarms', i, 'patterns', j], words: error instanceof Error ? error.message : String(error) },
        ]
      }
    }),
  ])
}

/** What a text says that must reach a human, each topic at its worst tier; empty when it says nothing of the kind. */
export function hear(text: string, list: WordList): readonly Heard[] {
  const clauses = clausesOf(text, list.spelling, list.words).map((tokens) => {
    const whole = list.find(tokens)
    return { tokens, whole, left: list.find(withoutIdioms(tokens, whole, list)) }
  })
  const found = new Map<Topic, Heard>()
  for (const { topic, tier, pattern, parts } of list.alarms) {
    const known = found.get(topic)
    if (known && severity[known.tier] <= severity[tier]) continue
    if (!parts.every((part) => clauses.some((clause) => says(clause, { part, topic }, list)))) continue
    found.set(topic, { topic, tier, pattern, sentence: text.slice(0, 3000) })
  }
  return [...found.values()].toSorted((a, b) => severity[a.tier] - severity[b.tier])
}

const severity: Record<Tier, number> = { emergency: 0, urgent: 1, 'next-session': 2 }

/** The words of a clause, what is found in it as it was written, and what without its idioms. */
type Clause = { readonly tokens: readonly Token[]; readonly whole: Found; readonly left: Found }

type Sought = { readonly part: Part; readonly topic: Topic }

/** Said of oneself and not denied, at any place of the clause. */
function says({ tokens, whole, left }: Clause, { part, topic }: Sought, list: WordList): boolean {
  const matches = waysIn(left, part)
  if (matches.length === 0 || part.unless.some((item) => whole.has(item))) return false
  return matches.some(
    (match) =>
      !isDenied(tokens, match, list) && (topic === 'self-harm' || !isAboutOthers(tokens, match, list)),
  )
}

/** A sign is denied when a negator reaches one of its words over nothing but little words; or when "no" follows it. */
function isDenied(tokens: readonly Token[], match: readonly number[], { words }: WordList): boolean {
  const own = new Set(match)
  const last = Math.max(...match)
  const after = tokens[last + 1]?.text === ',' ? last + 2 : last + 1
  if (['no', 'none', 'nope', 'nil'].includes(tokens[after]?.text ?? '') && isEnd(tokens[after + 1]))
    return true
  return match.some((position) => {
    // A list of what is absent, "no swelling, pain or fever": what stands before the "or" was listed as well.
    let listed = tokens.slice(position + 1, position + 4).some(isOr)
    for (let i = position - 1; i >= 0; i -= 1) {
      const text = tokens[i]?.text ?? ''
      // "Never been so short of breath" is no denial.
      if (['so', 'such', 'this'].includes(text) && tokens[i + 1]?.text !== 'morning') return false
      if (words.negators.includes(text) && !own.has(i)) return true
      if (isOr(tokens[i])) listed = true
      // "not hot or red": the word before an "or" is listed with it, whatever it is.
      const small = own.has(i) || words.between.includes(text) || isOr(tokens[i + 1])
      if (!(small || (listed && (text === ',' || isOr(tokens[i]) || words.canSlip.includes(text)))))
        return false
    }
    return false
  })
}

function isOr(token: Token | undefined): boolean {
  return token?.text === 'or' || token?.text === 'nor'
}

function isEnd(token: Token | undefined): boolean {
  return token === undefined || token.text === ','
}

/**
 * "My brother has a fever": between the commas around the sign stands somebody else before it, and no word of the
 * writer. Whoever comes after the sign ("fainted in front of my brother"), only in a comparison ("as if somebody sat
 * on it") or only along ("playing with the kids") has it not.
 */
function isAboutOthers(tokens: readonly Token[], match: readonly number[], { words }: WordList): boolean {
  const sign = Math.min(...match)
  const from = tokens.findLastIndex(({ text }, i) => text === ',' && i < sign) + 1
  const to = tokens.findIndex(({ text }, i) => text === ',' && i > Math.max(...match))
  const texts = tokens.slice(from, to < 0 ? undefined : to).map(({ text }) => text)
  const isOther = (text: string, i: number) =>
    words.others.includes(text) &&
    from + i < sign &&
    !['like', 'if', 'with'].includes(texts[i - 1] ?? '') &&
    texts[i - 2] !== 'with'
  const isWriter = (text: string, i: number) =>
    ['i', 'im', 'ive', 'me', 'myself'].includes(text) ||
    (text === 'my' && !words.others.includes(texts[i + 1] ?? ''))
  const isTale = tokens.some(({ text }) => words.tales.includes(text))
  return (isTale || texts.some(isOther)) && !texts.some(isWriter) && !isReported(tokens, words)
}

/** "My wife says", "writing for her": somebody else's words about the writer, anywhere in the clause. */
function isReported(tokens: readonly Token[], { tellers }: WordList['words']): boolean {
  return tokens.some((_, i) =>
    tellers.some((teller) => teller.split('_').every((word, j) => tokens[i + j]?.text === word)),
  )
}

function withoutIdioms(tokens: readonly Token[], found: Found, { idioms }: WordList): readonly Token[] {
  const said = idioms.filter(({ unless }) => !unless.some((item) => found.has(item)))
  const own = new Set(said.flatMap((idiom) => waysIn(found, idiom).flat()))
  return tokens.map((token, i) => (own.has(i) ? { text: '_', value: undefined } : token))
}
