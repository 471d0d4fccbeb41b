import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'

/** Everything of one athlete in one file, as this reader may have it. */
export type RecordOf = (chart: Chart, reader: string, team: Team, now: Instant) => Promise<Uint8Array>
