import type { Chart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Instant } from '../chart/day.ts'
import { ClinicEntry, clinicSubject, type Roster, readRoster, type Team } from '../chart/roster.ts'
import type { ClearedLine } from '../rules/cleared.ts'
import { clinicNow } from '../rules/clinic-settings.ts'
import { type Charts, chartsOf } from './charts.ts'
import type { Library } from './library.ts'
import { linesOf } from './lines.ts'
import { openPace, type Pace } from './pace.ts'
import type { Clock, Face, Store } from './ports.ts'

/** What the desk is handed by main.ts: its edges, and what the clinic agreed on. */
export type Edges = {
  readonly store: Store
  readonly face: Face
  readonly clock: Clock
  readonly library: Library
  readonly clinic: Clinic
  /** How many charts are kept folded; a reader of the whole clinic needs few. */
  readonly chartsAtHand?: number
  /** Ids and counts only, never a name or an answer. */
  readonly report: (event: string, about: Readonly<Record<string, string | number>>) => void
}

export type Desk = Edges & {
  readonly charts: Charts
  /** What a coach may know of one athlete today. */
  readonly lineOf: ReturnType<typeof linesOf>
  readonly pace: Pace
  /** When rounds were made last, by the host's clock. */
  readonly rounds: { latestAt?: Instant }
  /** The clinic's settings with its people as they are now. */
  team(): Promise<Team>
}

export function openDesk(edges: Edges): Desk {
  let roster: Roster = readRoster([])
  let journal: ClinicEntry[] = []

  async function team(): Promise<Team> {
    const known = journal.length
    const read = async (from: number) =>
      (await edges.store.read(clinicSubject, from)).map((entry) => ClinicEntry.parse(entry))
    const fresh = await read(known)
    // Pages turned before have given way to tombstones: what they said is not known here any more either.
    const anew = known > 0 && fresh.some(({ kind }) => kind === 'erased') ? await read(0) : undefined
    // Two looks at once may both find the same pages: only the first turns them.
    if (fresh.length > 0 && journal.length === known) {
      journal = anew ?? [...journal, ...fresh]
      roster = readRoster(journal)
    }
    return { clinic: clinicNow(edges.clinic, roster.settings), roster }
  }

  const charts = chartsOf(edges.store, edges.chartsAtHand)
  return { ...edges, charts, lineOf: linesOf(charts.glance), pace: openPace(), rounds: {}, team }
}

/** Every chart there is, closed ones too: for figures over all of them. */
export async function allCharts(desk: Desk): Promise<Chart[]> {
  const charts: Chart[] = []
  for (const { subject } of await desk.store.index())
    if (subject !== clinicSubject) charts.push(await desk.charts.glance(subject))
  return charts
}

/** Today's lines of every athlete who agreed to share with coaches, by name. */
export async function clearedLines(
  desk: Desk,
  team: Team,
  mine?: (chart: Chart) => boolean,
): Promise<ClearedLine[]> {
  const now = desk.clock.now()
  const lines: ClearedLine[] = []
  for (const row of await desk.store.index()) {
    if (row.subject === clinicSubject) continue
    const line = await desk.lineOf(row, team, now)
    if (line && (mine?.(await desk.charts.glance(row.subject)) ?? true)) lines.push(line)
  }
  return lines.sort((a, b) => a.name.localeCompare(b.name))
}
