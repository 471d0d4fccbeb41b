import { type Chart, checkInOf, openCalls } from '../chart/chart.ts'
import { dayAt, daysBetween, type Instant, minutesBetween } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'

/** The clinic in numbers, nobody named. */
export type ClinicFigures = {
  readonly enrolled: number
  readonly answeredToday: number
  readonly missedToday: number
  readonly onHold: number
  readonly openCalls: number
  readonly runsIn7Days: number
  readonly callsIn30Days: number
  /** Median (of an even number the lower middle) from the first call to the acknowledgement; undefined when none was acknowledged. */
  readonly medianMinutesToAcknowledge: number | undefined
}

export function clinicFigures(charts: readonly Chart[], team: Team, now: Instant): ClinicFigures {
  const enrolled = charts.filter((chart) => chart.enrolment)
  const todayOf = (chart: Chart) => dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const recent = enrolled
    .flatMap((chart) => chart.escalations)
    .filter((e) => minutesBetween(e.opened.recordedAt, now) <= 30 * 24 * 60)
  return {
    enrolled: enrolled.length,
    answeredToday: enrolled.filter((chart) => checkInOf(chart, todayOf(chart))).length,
    missedToday: enrolled.filter((chart) => chart.missed.has(todayOf(chart))).length,
    onHold: enrolled.filter((chart) => chart.holds.length > 0).length,
    openCalls: enrolled.flatMap(openCalls).length,
    runsIn7Days: enrolled.reduce((sum, chart) => sum + runsOf(chart, todayOf(chart)), 0),
    callsIn30Days: recent.length,
    medianMinutesToAcknowledge: median(
      recent.flatMap((e) =>
        e.acknowledged ? [minutesBetween(e.opened.recordedAt, e.acknowledged.recordedAt)] : [],
      ),
    ),
  }
}

function runsOf(chart: Chart, today: string): number {
  return chart.sessions.filter((session) => daysBetween(session.day, today) < 7).length
}

function median(values: readonly number[]): number | undefined {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor((sorted.length - 1) / 2)]
}
