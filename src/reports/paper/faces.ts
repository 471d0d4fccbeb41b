import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

type Pen = PDFKit.PDFDocument
export type Weight = 'plain' | 'strong'

const require = createRequire(import.meta.url)

/** The fonts of a package lie beside the code that it exports. */
function beside(entry: string, file: string): string {
  return join(dirname(entry), '..', 'fonts', file)
}

/**
 * The fonts, in the order in which they are asked. The first draws Latin, Greek, Cyrillic, Armenian, Georgian, Hebrew and
 * Arabic; one of the others is opened only when a name needs it. Han characters are drawn in the forms of simplified
 * Chinese print, kana with them. What none of them draws is said by its code point.
 */
const faces = [
  {
    name: 'first',
    plain: () => require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf'),
    strong: () => require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf'),
  },
  {
    name: 'devanagari',
    plain: () =>
      require.resolve(
        '@fontsource/noto-sans-devanagari/files/noto-sans-devanagari-devanagari-400-normal.woff',
      ),
    strong: () =>
      require.resolve(
        '@fontsource/noto-sans-devanagari/files/noto-sans-devanagari-devanagari-700-normal.woff',
      ),
  },
  {
    name: 'han',
    plain: () => beside(require.resolve('@embedpdf/fonts-sc'), 'NotoSansHans-Regular.otf'),
    strong: () => beside(require.resolve('@embedpdf/fonts-sc'), 'NotoSansHans-Bold.otf'),
  },
  {
    name: 'hangul',
    plain: () => beside(require.resolve('@embedpdf/fonts-kr'), 'NotoSansKR-Regular.otf'),
    strong: () => beside(require.resolve('@embedpdf/fonts-kr'), 'NotoSansKR-Bold.otf'),
  },
] as const
export type Face = (typeof faces)[number]['name']
export const firstFace: Face = 'first'

export type Faces = ReturnType<typeof openFaces>

/** The fonts of one document. */
export function openFaces(pen: Pen) {
  const opened = new Set<string>()
  const known = new Map<string, boolean>()

  /** The name under which a face is drawn with, opened when it is asked for first. */
  function fontOf(name: Face, weight: Weight): string {
    const font = `${name}-${weight}`
    const face = faces.find((one) => one.name === name)
    if (face && !opened.has(font)) pen.registerFont(font, face[weight]())
    opened.add(font)
    return font
  }

  function draws(name: Face, weight: Weight, letter: string): boolean {
    const key = `${name}-${weight} ${letter}`
    const before = known.get(key)
    if (before !== undefined) return before
    pen.font(fontOf(name, weight))
    const has = glyphsOf(pen).hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)
    known.set(key, has)
    return has
  }

  return {
    fontOf,
    /** The first face that draws all of these letters; undefined when none does. */
    faceFor(letters: string, weight: Weight): Face | undefined {
      return faces.find(({ name }) =>
        [...letters].every((letter) => isUnseen(letter) || draws(name, weight, letter)),
      )?.name
    },
  }
}

/** Joiners and selectors shape their neighbours and have no ink of their own; marks of direction neither. */
export function isUnseen(letter: string): boolean {
  return /[\u200b\u200e\u200f\u2060\ufeff\u061c]|\u200c|\u200d|\p{Variation_Selector}/u.test(letter)
}

/** The pen shows its font to nobody, and there is no other way to ask which letters it has. */
function glyphsOf(pen: Pen): { hasGlyphForCodePoint(codePoint: number): boolean } {
  return (pen as unknown as { _font: { font: { hasGlyphForCodePoint(codePoint: number): boolean } } })._font
    .font
}
