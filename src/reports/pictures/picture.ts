import type { PictureName } from '../../desk/ports.ts'

/** A picture before it is drawn: rows, a vega-lite description of them, and the same in words. */
export type Picture = {
  readonly name: PictureName
  readonly title: string
  /** What the picture says, for whoever does not see it. */
  readonly alt: string
  /** A vega-lite specification without size: the drawing decides how wide a phone is. */
  readonly spec: object
}

/**
 * Colours that stay apart for the common kinds of colour blindness and in grey (a set published for that purpose by
 * Okabe and Ito, without its red-green pair); lines and marks differ in shape besides.
 */
export const ink = { first: '#0072b2', second: '#d55e00', quiet: '#767676', text: '#222222' } as const

/** Calendar dates along the bottom. In UTC, so that a day stays the day that it is wherever the picture is drawn. */
export const days = {
  field: 'day',
  type: 'temporal',
  scale: { type: 'utc' },
  axis: { title: null, format: '%-d %b', labelOverlap: true, grid: false, tickCount: 6 },
} as const
