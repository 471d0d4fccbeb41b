/**
 * What a reader must know of a figure: it lies outside what was studied ('extrapolated'), it was recalled
 * and never seen in a source ('remembered'), or it is easily misread ('caution').
 */
export type Note = {
  readonly kind: 'extrapolated' | 'remembered' | 'caution'
  readonly words: string
  readonly source: string
}
