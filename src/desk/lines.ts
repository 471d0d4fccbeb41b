import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt, type Instant } from '../chart/day.ts'
import type { Roster, Team } from '../chart/roster.ts'
import { type ClearedLine, clearedLine } from '../rules/cleared.ts'
import type { IndexRow } from './ports.ts'

/** What a line was made from; while all of it stands, so does the line. */
type Made = {
  readonly length: number
  readonly last: string
  readonly roster: Roster
  readonly zone: string | undefined
  readonly day: Day | undefined
  readonly line: ClearedLine | undefined
}

/**
 * Keeps the coaches' lines between two lists: a list that is sent every minute of a morning must not read the charts
 * of the whole clinic each time (D28). A line changes with its chart, with the clinic's people and with the athlete's day.
 */
export function linesOf(read: (athlete: string) => Promise<Chart>) {
  const made = new Map<string, Made>()

  /** Undefined for whoever shares nothing with coaches, and for charts that are closed. */
  return async function lineOf(row: IndexRow, team: Team, now: Instant): Promise<ClearedLine | undefined> {
    const { length, last, subject, open } = row
    const { roster } = team
    if (!open) return void made.delete(subject)
    const before = made.get(subject)
    if (before?.length === length && before.last === last && before.roster === roster)
      if (before.zone === undefined || dayAt(now, before.zone) === before.day) return before.line
    const chart = await read(subject)
    const zone = chart.enrolment?.timeZone
    const day = zone === undefined ? undefined : dayAt(now, zone)
    const fresh = clearedLine(chart, team, now)
    made.set(subject, { length, last, roster, zone, day, line: fresh })
    return fresh
  }
}
