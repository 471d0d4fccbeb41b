import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { ExportForm } from '../chart/exported.ts'
import type { Team } from '../chart/roster.ts'

/** What is to be handed on: in which form, by whom, for whom. */
export type Wanted = {
  readonly form: ExportForm
  readonly reader: string
  readonly for: string
  readonly paper: 'A4' | 'LETTER'
}

/** One chart as a file, with what this reader may have in it. */
export type ExportOf = (
  chart: Chart,
  wanted: Wanted,
  team: Team,
  now: Instant,
) => Promise<{ readonly ending: string; readonly content: string | Uint8Array }>
