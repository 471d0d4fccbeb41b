import { chainStart, type Sealed, seal } from '../chart/chain.ts'
import type { Blanking } from '../desk/ports.ts'

/** The chart with tombstones in their places and one behind all: the others word for word, the chain begun anew. */
export function blanked(
  entries: readonly Sealed[],
  { places, closing }: Blanking,
): { sealed: Sealed[]; last: string } {
  const left = entries.map(({ before: _anew, ...entry }, position) => places.get(position) ?? entry)
  const { sealed, last } = seal<object>([...left, closing], chainStart)
  return { sealed: sealed as Sealed[], last }
}
