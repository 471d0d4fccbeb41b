import { z } from 'zod'
import { type Refusal, refuse } from './refusal.ts'

/**
 * A clinic that owns a published table of equal-effort speeds can lay it into `shared/tables/` in this shape
 * (`shared/tables/conversion-table.md` shows one). Speeds are all in `unit`; row i is `groundSpeed[i]`,
 * column j is `bodyWeightPct[j]`, both rising.
 */
const rising = z
  .array(z.number().positive())
  .min(2)
  .refine((list) => list.every((x, i) => i === 0 || x > (list[i - 1] ?? 0)), 'must rise')
const Table = z.strictObject({
  title: z.string().min(1),
  source: z.string().min(1),
  unit: z.enum(['mph', 'km/h', 'm/s']),
  /** The step to which the printed speeds were rounded: a shape broken by less than that is rounding. */
  roundedTo: z.number().nonnegative(),
  groundSpeed: rising,
  bodyWeightPct: rising.refine((list) => list.every((pct) => pct <= 100), 'must be per cent carried'),
  machineSpeed: z.array(z.array(z.number().positive())),
})
export type ConversionTable = z.infer<typeof Table>

/**
 * Reads a clinic's table, and refuses one that cannot be an equal-effort table: more support must need more
 * speed, and the proportional speed-up must shrink as the ground speed rises [kline-2015].
 */
export function readConversionTable(written: unknown): ConversionTable | Refusal {
  const parsed = Table.safeParse(written)
  if (!parsed.success)
    return refuse('unreadable', `The conversion table is not readable: ${z.prettifyError(parsed.error)}`)
  const table = parsed.data
  const { groundSpeed, bodyWeightPct, machineSpeed } = table
  if (
    machineSpeed.length !== groundSpeed.length ||
    machineSpeed.some((row) => row.length !== bodyWeightPct.length)
  )
    return refuse(
      'unreadable',
      `The conversion table needs ${groundSpeed.length} rows of ${bodyWeightPct.length} speeds.`,
    )
  return brokenShape(table) ?? table
}

/** The machine speed for a ground speed, both in the table's unit; bilinear inside, refused outside. */
export function convertSpeed(
  table: ConversionTable,
  groundSpeed: number,
  bodyWeightPct: number,
): number | Refusal {
  const row = between(table.groundSpeed, groundSpeed)
  const column = between(table.bodyWeightPct, bodyWeightPct)
  if (row === undefined || column === undefined) {
    const ends = (list: readonly number[]): string => `${list[0]} to ${list[list.length - 1]}`
    return refuse(
      'out-of-range',
      `The table reaches from ${ends(table.groundSpeed)} ${table.unit} and ${ends(table.bodyWeightPct)} %; it is not stretched.`,
    )
  }
  const along = (i: number): number =>
    mix(cell(table, i, column.index), cell(table, i, column.index + 1), column.share)
  return mix(along(row.index), along(row.index + 1), row.share)
}

function brokenShape(table: ConversionTable): Refusal | undefined {
  const { groundSpeed, bodyWeightPct, roundedTo, unit } = table
  const broken = (words: string): Refusal => refuse('breaks-published-shape', words)
  for (const [i, ground] of groundSpeed.entries())
    for (const [j, pct] of bodyWeightPct.entries()) {
      const here = cell(table, i, j)
      if (j > 0 && here > cell(table, i, j - 1) + roundedTo)
        return broken(
          `At ${ground} ${unit}, ${pct} % needs more speed than less weight does: more support must need more speed.`,
        )
      const slowerGround = groundSpeed[i - 1]
      if (slowerGround === undefined) continue
      const rounding = roundedTo / slowerGround
      if (here / ground > cell(table, i - 1, j) / slowerGround + rounding)
        return broken(
          `At ${pct} %, the proportional speed-up grows from ${slowerGround} to ${ground} ${unit}: it must shrink.`,
        )
    }
  return undefined
}

const cell = (table: ConversionTable, i: number, j: number): number =>
  table.machineSpeed[i]?.[j] ?? Number.NaN

const mix = (a: number, b: number, share: number): number => a + (b - a) * share

const between = (axis: readonly number[], at: number): { index: number; share: number } | undefined => {
  const upper = Math.max(
    1,
    axis.findIndex((x) => x >= at),
  )
  const [low, high] = [axis[upper - 1], axis[upper]]
  if (low === undefined || high === undefined || at < low || at > high) return undefined
  return { index: upper - 1, share: (at - low) / (high - low) }
}
