import { z } from 'zod'
import written from '../../shared/tables/easy-pace.json' with { type: 'json' }
import type { Range } from '../chart/dose.ts'

const table = z.object({ easyRunKmh: z.object({ value: z.tuple([z.number(), z.number()]) }) }).parse(written)

/** The pace of a run for which a ladder gives no speed: slow running, and never above the ceiling. */
export function easyPaceMps(topMps: number): Range {
  const [low, high] = table.easyRunKmh.value
  return { low: Math.min(low / 3.6, topMps), high: Math.min(high / 3.6, topMps) }
}
