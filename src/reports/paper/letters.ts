import { createRequire } from 'node:module'
import type { Bidi } from 'bidi-js'
import { type Face, type Faces, firstFace, isUnseen, type Weight } from './faces.ts'

/** What a reader sees as one letter: its text, the face that draws it, and how deep in right-to-left text it stands. */
export type Letter = { readonly text: string; readonly face: Face; readonly level: number }

// The package is one function, and its types say otherwise.
const bidiOf: () => Bidi = createRequire(import.meta.url)('bidi-js')
const bidi = bidiOf()
const clusters = new Intl.Segmenter('und', { granularity: 'grapheme' })

/** Text that the first face draws from left to right needs no care. */
export function isPlain(text: string, weight: Weight, faces: Faces): boolean {
  return !turnsRight.test(text) && faces.faceFor(text.replaceAll('\n', ''), weight) === firstFace
}

/** Scripts that run from right to left, and the marks that change the direction. */
const turnsRight =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/u

/** Marks that can make a text read as what it is not: they are said, never obeyed. */
const overrides = /[\u202a-\u202e\u2066-\u2069]/

/**
 * Every letter that no face draws is put as its code point, `[U+0E2A]`: nothing vanishes and nothing is transliterated.
 * `undrawn` hears of them.
 */
export function legible(
  text: string,
  weight: Weight,
  { faces, undrawn }: { readonly faces: Faces; readonly undrawn: Set<string> },
): string {
  const drawn = (cluster: string) =>
    !overrides.test(cluster) && (cluster === '\n' || faces.faceFor(cluster, weight) !== undefined)
  return [...clusters.segment(text)]
    .map(({ segment }) => {
      if (drawn(segment)) return segment
      const codes = [...segment].filter((letter) => !isUnseen(letter)).map(codePoint)
      for (const code of codes) undrawn.add(code)
      return codes.map((code) => `[${code}]`).join('')
    })
    .join('')
}

function codePoint(letter: string): string {
  return `U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
}

/** A paragraph, letter by letter in the order of reading. The report is written from left to right. */
export function lettersOf(paragraph: string, weight: Weight, faces: Faces): readonly Letter[] {
  const { levels } = bidi.getEmbeddingLevels(paragraph, 'ltr')
  return [...clusters.segment(paragraph)].map(({ segment, index }) => ({
    text: segment,
    face: faces.faceFor(segment, weight) ?? firstFace,
    level: levels[index] ?? 0,
  }))
}

/** Letters that are drawn in one go. */
export type Run = { readonly text: string; readonly face: Face; readonly level: number }

export function runsOf(letters: readonly Letter[]): readonly Run[] {
  const runs: { text: string; face: Face; level: number }[] = []
  for (const { text, face, level } of letters) {
    const last = runs.at(-1)
    if (last && last.face === face && last.level === level) last.text += text
    else runs.push({ text, face, level })
  }
  return runs
}

/** The runs of a line as they stand on paper from left to right (rule L2 of the algorithm: the deepest turn first). */
export function inOrder(runs: readonly Run[]): readonly Run[] {
  const ordered = [...runs]
  for (let level = Math.max(0, ...runs.map((run) => run.level)); level > 0; level -= 1)
    for (let from = 0; from < ordered.length; from += 1) {
      let until = from
      while ((ordered[until]?.level ?? 0) >= level) until += 1
      if (until > from) ordered.splice(from, until - from, ...ordered.slice(from, until).toReversed())
      from = until
    }
  return ordered
}

/**
 * The text of a run as the pen wants it. In right-to-left text brackets are turned; letters of such a script the font
 * turns by itself, what has no script of its own is turned here.
 */
export function asDrawn({ text, level }: Run): string {
  if (level % 2 === 0) return text
  const turned = [...text].map((letter) => bidi.getMirroredCharacter(letter) ?? letter)
  return (turnsRight.test(text) ? turned : turned.toReversed()).join('')
}
