import type { Tissue } from '../chart/ladder.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { SetUpCard } from '../chart/set-up-card.ts'

/** The card beside a prescribed run, in groups of lines. Empty `before` outside the LBPP treadmill. */
export type CardLines = {
  readonly before: readonly string[]
  readonly start: readonly string[]
  readonly onPain: readonly string[]
  readonly stopWhen: readonly string[]
}

/** The clinic's own words with this prescription's numbers in them; undefined for a day without a run. */
export function cardFor(
  card: SetUpCard,
  { dose, during }: Pick<Prescription, 'dose' | 'during'>,
  tissue: Tissue,
  shortsSize?: string,
): CardLines | undefined {
  if (!dose) return undefined
  const inTreadmill = dose.on === 'lbpp-treadmill'
  const fill = (line: string) =>
    line.replace(/\{(\w+)\}/g, (whole, name: string) => {
      const value = during?.[name as keyof typeof during]
      return value === undefined ? whole : String(value)
    })
  const shorts = shortsSize ? `${card.shorts.words} Yours: ${shortsSize}.` : card.shorts.words
  return {
    before: inTreadmill ? [shorts, ...card.before] : [],
    start: inTreadmill ? card.start : [],
    onPain: during ? (inTreadmill ? card.onPain.inTreadmill : card.onPain.elsewhere).map(fill) : [],
    stopWhen: [...card.stopWhen.always, ...card.stopWhen[tissue]].map(fill),
  }
}
