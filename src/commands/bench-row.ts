/** One line of the benchmark: what was measured, beside what, and whether the target is met. */
export type Row = {
  readonly name: string
  readonly unit: string
  readonly ours: number
  /** Measured in the same run on the same machine; null where there is nothing to compare with. */
  readonly reference: number | null
  readonly ratio: number | null
  readonly target: string
  readonly met: boolean
}

/** The more the better: ours is to reach a share of the reference. */
export function reaches(name: string, ours: number, reference: number, share: number, unit = '/s'): Row {
  const ratio = ours / reference
  return { name, unit, ours, reference, ratio, target: `ratio at least ${share}`, met: ratio >= share }
}

/** The more the better: ours is to reach a number. */
export function atLeast(name: string, ours: number, least: number, unit = '/s'): Row {
  return { name, unit, ours, reference: null, ratio: null, target: `at least ${least}`, met: ours >= least }
}

/** For comparison with another machine or another day: nothing is to be reached. */
export function shown(name: string, ours: number, unit = '/s'): Row {
  return { name, unit, ours, reference: null, ratio: null, target: '-', met: true }
}

/** The less the better: ours is to stay under a number, and under so many times the reference where one is named. */
export function under(
  name: string,
  ours: number,
  most: number,
  than: { readonly unit: string; readonly reference?: number; readonly times?: number },
): Row {
  const { unit, reference = null, times } = than
  const ratio = reference === null ? null : ours / reference
  const small = times === undefined || ratio === null || ratio < times
  const target = `under ${most} ${unit}${times === undefined ? '' : `, under ${times} times`}`
  return { name, unit, ours, reference, ratio, target, met: ours < most && small }
}

/** The rows as a table that can stand in the README. */
export function tableOf(rows: readonly Row[]): string[] {
  const cells = rows.map(({ name, unit, ours, reference, ratio, target, met }) => [
    name,
    `${rounded(ours)} ${unit}`,
    reference === null ? '-' : `${rounded(reference)} ${unit}`,
    ratio === null ? '-' : ratio.toFixed(2),
    target,
    met ? 'yes' : 'no',
  ])
  const head = ['what', 'ours', 'reference', 'ratio', 'target', 'met']
  return [head, head.map(() => '---'), ...cells].map((row) => `| ${row.join(' | ')} |`)
}

function rounded(value: number): string {
  return value >= 100 ? Math.round(value).toLocaleString('en') : value.toPrecision(3)
}
