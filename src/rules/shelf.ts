import type { CriteriaSet } from '../chart/criteria-set.ts'
import type { Family } from '../chart/family.ts'
import type { Ladder, Tissue } from '../chart/ladder.ts'
import type { MeasureKind } from '../chart/measure-kind.ts'
import type { Programme } from '../chart/programme.ts'
import type { WordList } from './words.ts'

/** What clinicians agreed on, as the rules look it up: by `id@version`, or by `id` alone for the newest. */
export type Shelf = {
  /** The words that must reach a human. */
  readonly words: WordList
  ladder(id: string): Ladder | undefined
  programme(id: string): Programme | undefined
  criteria(id: string): CriteriaSet | undefined
  readonly criteriaSets: readonly CriteriaSet[]
  measure(id: string): MeasureKind | undefined
  family(tissue: Tissue): Family
}
