import { type Chart, checkInOf, openCalls } from '../chart/chart.ts'
import { dayAt, daysBetween, type Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'

/** The clinic today in numbers, nobody named. */
export type ClinicFigures = {
  readonly enrolled: number
  readonly answeredToday: number
  readonly missedToday: number
  readonly onHold: number
  readonly openCalls: number
  readonly runsIn7Days: number
}

export function clinicFigures(charts: readonly Chart[], team: Team, now: Instant): ClinicFigures {
  const enrolled = charts.filter((chart) => chart.enrolment)
  const todayOf = (chart: Chart) => dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  return {
    enrolled: enrolled.length,
    answeredToday: enrolled.filter((chart) => checkInOf(chart, todayOf(chart))).length,
    missedToday: enrolled.filter((chart) => chart.missed.has(todayOf(chart))).length,
    onHold: enrolled.filter((chart) => chart.holds.length > 0).length,
    openCalls: enrolled.flatMap(openCalls).length,
    runsIn7Days: enrolled.reduce((sum, chart) => sum + runsOf(chart, todayOf(chart)), 0),
  }
}

function runsOf(chart: Chart, today: string): number {
  return chart.sessions.filter((session) => daysBetween(session.day, today) < 7).length
}
