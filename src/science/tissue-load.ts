import { z } from 'zod'
import written from '../../shared/tables/tissue.json' with { type: 'json' }
import { CitedCurve, CitedNumber, CitedSpan } from './cited.ts'
import type { Note } from './note.ts'
import type { Range } from './range.ts'
import { type Refusal, refuse } from './refusal.ts'

/**
 * Mechanical load of a bout against a reference bout: steps times (peak force)^b, as in fatigue
 * [edwards-2018]. The large b makes it hypersensitive to force, so it is a relative BAND, shown with what
 * drives it. Bone and cartilage exponents are remembered, not read; tendon has no constant exponent at all
 * [schechtman-1997]. It describes; it decides nothing.
 */
export const tissues = ['bone', 'cartilage', 'meniscus', 'tendon'] as const
export type Tissue = (typeof tissues)[number]

export type Loading = { readonly steps: number; readonly peakForceBw: number }

export type TissueLoad = {
  readonly tissue: Tissue
  readonly exponent: Range
  /** Against the reference bout (1 = the same): everything below together. */
  readonly relative: Range
  /** Only the exponent unsure. */
  readonly byExponent: Range
  /** Only the body-weight setting unsure, by 5 %, at the middle exponent. */
  readonly bySetting: Range
  readonly notes: readonly Note[]
}

const exponent = z.strictObject({ exponent: CitedSpan })
const table = z
  .strictObject({
    bone: exponent,
    cartilage: exponent,
    meniscus: exponent,
    tendon: z.strictObject({
      strengthPct: CitedNumber,
      pctPerDecade: CitedNumber,
      stressPct: CitedSpan,
      studiedPct: CitedSpan,
    }),
    meniscusCycles: CitedCurve,
    settingErrorShare: CitedNumber,
  })
  .parse(written)

export function tissueLoad(
  bout: Loading,
  reference: Loading,
  tissue: Tissue,
  own?: Range,
): TissueLoad | Refusal {
  if (!(reference.steps > 0 && reference.peakForceBw > 0))
    return refuse(
      'undefined',
      'The reference bout needs steps and force: nothing can be compared with nothing.',
    )
  const { exponent, notes } = own === undefined ? exponentOf(tissue) : { exponent: own, notes: [] }
  const steps = bout.steps / reference.steps
  const force = bout.peakForceBw / reference.peakForceBw
  const error = table.settingErrorShare.value
  const forces = [force * (1 - error), force, force * (1 + error)]
  const damages = (forces: readonly number[], exponents: readonly number[]): Range => {
    const all = forces.flatMap((f) => exponents.map((b) => steps * damagePerStep(f, b)))
    return { low: Math.min(...all), high: Math.max(...all) }
  }
  const { low, high } = exponent
  return {
    tissue,
    exponent,
    relative: damages(forces, [low, high]),
    byExponent: damages([force], [low, high]),
    bySetting: damages(forces, [(low + high) / 2]),
    notes,
  }
}

/** Damage of one step at `relativeForce` times the reference force. */
export function damagePerStep(relativeForce: number, exponent: number): number {
  return relativeForce ** exponent
}

/** The factor on force that doubles the damage of a step. */
export function doublingForce(exponent: number): number {
  return 2 ** (1 / exponent)
}

/** Exponent between two points of a stress-life curve. */
export function exponentBetween(a: readonly [number, number], b: readonly [number, number]): number {
  return Math.log(a[1] / b[1]) / Math.log(b[0] / a[0])
}

/** Local exponent of tendon at a share of its strength: S ln 10 / 14.8, of a semi-log line [schechtman-1997]. */
export function tendonExponent(stressPct: number): number {
  return (stressPct * Math.LN10) / table.tendon.pctPerDecade.value
}

/** Median cycles of tendon to failure at a share of its strength, in vitro [schechtman-1997]. */
export function tendonCycles(stressPct: number): number {
  return 10 ** ((table.tendon.strengthPct.value - stressPct) / table.tendon.pctPerDecade.value)
}

/** Mean cycles of meniscus to failure, (share of strength in per cent, cycles), in vitro [henderson-2022]. */
export const meniscusCycles = table.meniscusCycles.value

function exponentOf(tissue: Tissue): { exponent: Range; notes: Note[] } {
  if (tissue === 'tendon') {
    const [low, high] = table.tendon.stressPct.value
    const words =
      'Tendon has no constant exponent: the span is that of loads between 20 and 60 % of its strength, in vitro.'
    const notes: Note[] = [{ kind: 'extrapolated', words, source: table.tendon.pctPerDecade.source }]
    return { exponent: { low: tendonExponent(low), high: tendonExponent(high) }, notes }
  }
  const cited = table[tissue].exponent
  const [low, high] = cited.value
  const note: Note =
    cited.label === 'memory'
      ? {
          kind: 'remembered',
          words: `The exponent of ${tissue} (${low} to ${high}) is remembered, not read.`,
          source: cited.source,
        }
      : {
          kind: 'extrapolated',
          words: `The exponent of ${tissue} comes from specimens, not from runners.`,
          source: cited.source,
        }
  return { exponent: { low, high }, notes: [note] }
}
