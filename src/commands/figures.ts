import { allFigures } from '../science/figures/all-figures.ts'
import { compare, type Figure } from '../science/figures/figure.ts'
import type { Range } from '../science/range.ts'
import { isRefusal } from '../science/refusal.ts'
import { readOptions, turnAway } from './options.ts'

/** Every published figure beside what the code computes, as markdown; exit code 1 when one is out of its tolerance. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const typed = readOptions(argv, {})
  if (isRefusal(typed)) return turnAway(typed)
  let outside = 0
  for (const [subject, figures] of Object.entries(allFigures)) {
    out(`### ${subject}`)
    out('')
    out('| row | figure | published | computed | deviation | allowed | source | label |')
    out('|---|---|---|---|---|---|---|---|')
    for (const figure of figures) {
      const { computed, deviation } = compare(figure)
      // The last bit of a binary fraction is no deviation.
      const beyond = Math.abs(deviation) > figure.tolerance + 1e-9
      if (beyond) outside += 1
      out(row(figure, computed, deviation, beyond))
    }
    out('')
  }
  const count = Object.values(allFigures).flat().length
  out(`${count} published figures, ${outside} outside what is allowed.`)
  out('A range under "computed" spans the studies: a published number inside it deviates by 0.')
  return outside === 0 ? 0 : 1
}

const row = (figure: Figure, computed: number | Range, deviation: number, beyond: boolean): string =>
  `| ${[
    figure.row,
    figure.quantity,
    shown(figure.published),
    shown(computed),
    `${shown(deviation)}${beyond ? ' (outside)' : ''}`,
    shown(figure.tolerance),
    figure.source,
    figure.label,
  ].join(' | ')} |`

const shown = (value: number | Range): string => {
  if (typeof value !== 'number') return `${shown(value.low)} to ${shown(value.high)}`
  return Math.abs(value) < 1e-9 ? '0' : String(Number(value.toPrecision(Math.abs(value) >= 1000 ? 6 : 5)))
}
