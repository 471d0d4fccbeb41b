/** A word as it is compared, or a comma; `value` when it is a number. */
export type Token = { readonly text: string; readonly value: number | undefined }

/** How words that were typed in a hurry are read. */
export type Spelling = {
  readonly known: ReadonlySet<string>
  readonly fixed: ReadonlyMap<string, string>
  readonly stems: readonly string[]
  readonly alarms: readonly string[]
}

type Kept = {
  readonly misspelt: Readonly<Record<string, readonly string[]>>
  readonly canSlip: readonly string[]
  readonly realWords: readonly string[]
}

export function spellingOf({ misspelt, canSlip, realWords }: Kept, alarmWords: readonly string[]): Spelling {
  const fixed = new Map(
    Object.entries(misspelt).flatMap(([word, forms]) => forms.map((form) => [form, word] as const)),
  )
  const whole = alarmWords.map((word) => word.replace('*', ''))
  return {
    fixed,
    known: new Set([...realWords, ...canSlip, ...whole]),
    stems: [...new Set(alarmWords.filter((word) => word.length > 4 && word.endsWith('*')))].map((word) =>
      word.slice(0, -1),
    ),
    alarms: canSlip,
  }
}

/**
 * The clauses of a text as words: small letters, no apostrophes, "not able to" and its like as "cannot", misspelt
 * alarms set right. A full stop or a contrast ("but") ends a clause, because a denial does not reach beyond it.
 */
export function clausesOf(
  text: string,
  spelling: Spelling,
  { contrasts }: { readonly contrasts: readonly string[] },
): readonly (readonly Token[])[] {
  const clauses: Token[][] = [[]]
  const words = wordsOf(text)
  const isContrast = (at: number) =>
    contrasts.some((contrast) => contrast.split('_').every((word, i) => words[at + i] === word))
  for (const [at, word] of words.entries()) {
    if (word === '.' || isContrast(at)) clauses.push([])
    else clauses.at(-1)?.push(tokenOf(word, spelling))
  }
  return clauses.filter((tokens) => tokens.length > 0)
}

function wordsOf(text: string): readonly string[] {
  const plain = text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[̀-ͯ]/g, '')
    .replace(/[’‘`´]/g, "'")
    .replace(/([a-z])'s\b/g, '$1 is')
    .replace(/'/g, '')
    .replace(/\bw\/o\b/g, 'without')
    .replace(/(\d),(\d)/g, '$1.$2')
    .replace(/(.)\1{2,}/g, '$1$1')
  const joined = cannot.reduce((soFar, pattern) => soFar.replace(pattern, ' cannot '), plain)
  return (
    joined
      .match(/\d+(?:\.\d+)?|[a-z]+|,|[.!?;:\n]/g)
      ?.map((word) => (/^[.!?;\n]$/.test(word) ? '.' : word === ':' ? ',' : word)) ?? []
  )
}

/** The ways of saying that something cannot be done, which is a sign and not a denial. */
const cannot = [
  /\b(?:cant|can not|couldnt|could not|canot|cannt|carnt|cnt|cudnt|cannae|couldnae|cud not|no can|unable to|impossible to|wont let me)\b/g,
  /\b(?:not|never|isnt|arent|wasnt|havent|hasnt|hadnt|no longer|barely|hardly)(?: (?:been|be|really|even))* able to\b/g,
  /\b(?:can|could) (?:hardly|barely|scarcely|no longer|not even)\b/g,
  /\bno longer can\b/g,
  /\bno (?:fit|dey gree|gree)\b/g,
]

function tokenOf(word: string, { known, fixed, stems, alarms }: Spelling): Token {
  const value = /^\d/.test(word) ? Number(word) : undefined
  if (value !== undefined) return { text: word, value }
  const right = fixed.get(word)
  if (right || known.has(word) || stems.some((stem) => word.startsWith(stem)))
    return { text: right ?? word, value }
  return { text: alarms.find((alarm) => isSlip(word, alarm)) ?? word, value }
}

/** One slip in a word of five letters or more, two in a long one; the first letter is nearly always right. */
function isSlip(word: string, alarm: string): boolean {
  const most = alarm.length >= 10 ? 2 : 1
  return (
    word[0] === alarm[0] &&
    word.length >= 4 &&
    Math.abs(word.length - alarm.length) <= most &&
    slips(word, alarm) <= most
  )
}

/** Letters missing, added, wrong or changed round (optimal string alignment). */
function slips(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)]
  const at = (i: number, j: number) => rows[i]?.[j] ?? Number.POSITIVE_INFINITY
  for (let i = 1; i <= a.length; i += 1) {
    rows.push([i])
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      const turned = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const best = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + same)
      rows[i]?.push(turned ? Math.min(best, at(i - 2, j - 2) + 1) : best)
    }
  }
  return at(a.length, b.length)
}
