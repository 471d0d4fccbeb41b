import { firstBreak, hashOf, type Sealed } from '../chart/chain.ts'
import type { Instant } from '../chart/day.ts'
import type { Notice } from '../chart/notices.ts'
import type { Outcome } from '../desk/ports.ts'

/** All that a store holds about one subject, free of how it is kept. */
export type MovedChart = {
  readonly subject: string
  readonly open: boolean
  readonly dueAt: Instant | null | undefined
  readonly entries: readonly Sealed[]
  readonly notices: readonly MovedNotice[]
}
/** `place` is where it stands among the notices of all charts; `end` is absent while it waits. */
export type MovedNotice = {
  readonly place: number
  readonly notice: Notice
  readonly tries: number
  readonly unknown: boolean
  readonly retryAt: Instant | undefined
  readonly end: { readonly outcome: Outcome; readonly place: number } | undefined
}

/** One side of a move, taken while no bot runs on it. */
export type Side = {
  subjects(): Promise<readonly string[]>
  chart(subject: string): Promise<MovedChart>
  put(chart: MovedChart): Promise<void>
  /** Ends the move: `done` when everything was put. */
  close(done: boolean): Promise<void>
}

export type Moved = { readonly charts: number; readonly entries: number; readonly waiting: number }

/**
 * Moves a clinic from one store to an empty one, chart by chart, then reads both again and compares them hash
 * by hash. The side it came from is not changed. Throws when the other side is not empty or differs.
 */
export async function moveCharts(from: Side, to: Side, onChart: (subject: string) => void): Promise<Moved> {
  const before = await to.subjects()
  if (before.length > 0)
    throw new MoveRefused(`There are ${before.length} charts already where these should go.`)
  const subjects = await from.subjects()
  for (const subject of subjects) await to.put(await from.chart(subject))
  let entries = 0
  let waiting = 0
  for (const subject of subjects) {
    const [old, moved] = [await from.chart(subject), await to.chart(subject)]
    const fault = difference(old, moved)
    if (fault !== undefined) throw new MoveRefused(`Chart ${subject} did not arrive as it was: ${fault}.`)
    entries += moved.entries.length
    waiting += moved.notices.filter(({ end }) => end === undefined).length
    onChart(subject)
  }
  return { charts: subjects.length, entries, waiting }
}

/** The move did not happen or is not to be trusted; the old store goes on as before. */
export class MoveRefused extends Error {
  readonly words: string
  constructor(words: string) {
    super(words)
    this.name = 'MoveRefused'
    this.words = words
  }
}

function difference(old: MovedChart, moved: MovedChart): string | undefined {
  const broken = firstBreak(moved.entries)
  if (broken !== undefined) return `entry ${broken + 1} does not follow the one before it`
  if (old.entries.length !== moved.entries.length) return 'it has another number of entries'
  for (const [i, entry] of old.entries.entries())
    if (hashOf(entry) !== hashOf(moved.entries[i] as Sealed)) return `entry ${i + 1} has another hash`
  if (old.open !== moved.open || old.dueAt !== moved.dueAt) return 'it is due at another time'
  if (JSON.stringify(old.notices.map(told)) !== JSON.stringify(moved.notices.map(told)))
    return 'its notices differ'
  return undefined
}

/** What must not change about a notice: how often an ended one was tried is history. */
function told({ place, notice, tries, unknown, retryAt, end }: MovedNotice): unknown[] {
  return end ? [place, notice, end.outcome] : [place, notice, tries, unknown, retryAt ?? null]
}
