import { firstFace, openFaces, type Weight } from './faces.ts'
import { asDrawn, inOrder, isPlain, type Letter, legible, lettersOf, type Run, runsOf } from './letters.ts'

type Pen = PDFKit.PDFDocument

/** Text as it will stand in a column: how high it is, and how it is drawn from its upper left corner. */
export type Block = {
  readonly heightPt: number
  /** What is read aloud in place of what is drawn, where the two differ. */
  readonly actual: string | undefined
  draw(x: number, y: number): void
}

export type Setting = { readonly weight: Weight; readonly sizePt: number; readonly widthPt: number }

/** In sizes of the letter: how far lines with other scripts stand apart, and how high the first face rises above its line. */
const lineHeight = 1.45
const firstAscent = 0.928

/** Sets text in columns, in every script that the fonts draw. */
export function typesetter(pen: Pen) {
  const faces = openFaces(pen)
  const undrawn = new Set<string>()

  function inFont({ face, weight, sizePt }: { face: Run['face'] } & Omit<Setting, 'widthPt'>): Pen {
    return pen.font(faces.fontOf(face, weight)).fontSize(sizePt)
  }

  function widthOf(letters: readonly Letter[], setting: Setting): number {
    const widths = runsOf(letters).map((run) =>
      inFont({ ...setting, face: run.face }).widthOfString(asDrawn(run), wholeRun),
    )
    return widths.reduce((sum, width) => sum + width, 0)
  }

  function linesOf(paragraph: string, setting: Setting): readonly (readonly Letter[])[] {
    const lines: Letter[][] = [[]]
    const fits = (more: readonly Letter[]) =>
      widthOf(withoutEnd([...(lines.at(-1) ?? []), ...more]), setting) <= setting.widthPt
    for (const word of wordsOf(lettersOf(paragraph, setting.weight, faces))) {
      if (!fits(word) && lines.at(-1)?.length !== 0) lines.push([])
      // A word that is wider than its column is broken where the column ends.
      for (const part of fits(word) ? [word] : word.map((letter) => [letter])) {
        if (!fits(part) && lines.at(-1)?.length !== 0) lines.push([])
        lines.at(-1)?.push(...part)
      }
    }
    return lines.map(withoutEnd)
  }

  /** Text in the first face keeps the lines of its font; what holds other scripts needs more air. */
  function block(given: string, setting: Setting): Block {
    const text = given.normalize('NFC')
    const { weight, sizePt } = setting
    const isPlainText = isPlain(text, weight, faces)
    const shown = isPlainText ? text : legible(text, weight, { faces, undrawn })
    const lines = shown.split('\n').flatMap((paragraph) => linesOf(paragraph, setting))
    const own = inFont({ face: firstFace, ...setting }).currentLineHeight(true)
    const leadPt = isPlainText ? own : sizePt * lineHeight
    const basePt = sizePt * (isPlainText ? firstAscent : firstAscent + (lineHeight - own / sizePt) / 2)
    return {
      heightPt: lines.length * leadPt,
      actual: isPlainText ? undefined : text,
      draw(x, y) {
        for (const [i, line] of lines.entries()) {
          let at = x
          for (const run of inOrder(runsOf(line))) {
            const drawn = asDrawn(run)
            const base = y + i * leadPt + basePt
            inFont({ ...setting, face: run.face }).text(drawn, at, base, onBaseLine)
            at += pen.widthOfString(drawn, wholeRun)
          }
        }
      },
    }
  }

  return {
    inFont,
    block,
    /** Code points that stand in place of letters which no font draws. */
    undrawn: (): readonly string[] => [...undrawn].toSorted(),
  }
}

/** Shaped as a whole: word by word the pen would put the words of a right-to-left text in the wrong order. */
const wholeRun: PDFKit.Mixins.TextOptions = { features: [] }
const onBaseLine: PDFKit.Mixins.TextOptions = { ...wholeRun, lineBreak: false, baseline: 'alphabetic' }

/** A line may end after a space, after a hyphen between letters, and after a Han character or kana. */
function wordsOf(letters: readonly Letter[]): readonly (readonly Letter[])[] {
  const words: Letter[][] = [[]]
  for (const [i, letter] of letters.entries()) {
    words.at(-1)?.push(letter)
    const hyphen = letter.text === '-' && /\p{L}/u.test(letters[i + 1]?.text ?? '')
    if (letter.text === ' ' || letter.face === 'han' || hyphen) words.push([])
  }
  return words
}

/** Without the spaces at its end: they would stand in the wrong place when the line is turned. */
function withoutEnd(letters: readonly Letter[]): Letter[] {
  const last = letters.findLastIndex(({ text }) => text !== ' ')
  return letters.slice(0, last + 1)
}
