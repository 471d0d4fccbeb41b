import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator'
import { type Chart, openEscalations, prescriptionOf, sessionOf } from '../chart/chart.ts'
import { type Day, dayAt, daysBetween, type Instant, plusDays, weekdayOf } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'

/**
 * An athlete's running days and reviews as iCalendar text (RFC 5545), all-day, on the athlete's own dates. Calendars
 * are shared and shown on lock screens: no event holds anything medical. A day to come says that the morning decides;
 * none is given while running is on hold or after the clearance ends.
 */
export function calendar(chart: Chart, team: Team, now: Instant): string {
  const zone = chart.enrolment?.timeZone ?? team.clinic.timeZone
  const feed = ical({
    prodId: { company: 'sanderling', product: 'record', language: 'EN' },
    name: `Running days, ${team.clinic.name}`,
    method: ICalCalendarMethod.PUBLISH,
  })
  for (const { day, what, summary, description } of daysOf(chart, dayAt(now, zone)))
    feed.createEvent({
      id: `${what}.${chart.athlete}.${day}@sanderling`,
      stamp: now,
      start: `${day}T00:00:00.000Z`,
      timezone: 'UTC',
      allDay: true,
      summary,
      description,
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  return feed.toString()
}

type Event = {
  readonly day: Day
  readonly what: 'run' | 'review'
  readonly summary: string
  readonly description: string
}

/** The farthest day that is looked at: a season. */
const mostDays = 183

function daysOf(chart: Chart, today: Day): readonly Event[] {
  const { clearance } = chart
  const done = [...new Set(chart.sessions.map((session) => session.day))].map((day) =>
    run(day, 'Run done', 'Logged.'),
  )
  if (!clearance || clearance.until < today) return done
  const until = review(clearance.until)
  return [...done, ...runsToCome(chart, today, clearance.until), until]
}

function runsToCome(chart: Chart, today: Day, until: Day): readonly Event[] {
  const { plan, clearance } = chart
  if (
    !plan ||
    clearance?.state === 'no running' ||
    chart.holds.length > 0 ||
    openEscalations(chart).length > 0
  )
    return []
  const length = Math.min(daysBetween(today, until), mostDays) + 1
  return Array.from({ length }, (_, n) => plusDays(today, n)).flatMap((day) => {
    if (sessionOf(chart, day) || !plan.days.includes(weekdayOf(day))) return []
    if (day > today) return [run(day, 'Possible running day', 'The check-in of the morning decides.')]
    return prescriptionOf(chart, day)?.what === 'run'
      ? [run(day, 'Run today', 'Your plan is in the chat.')]
      : []
  })
}

function run(day: Day, summary: string, description: string): Event {
  return { day, what: 'run', summary, description }
}

function review(day: Day): Event {
  return {
    day,
    what: 'review',
    summary: 'Review with the therapist',
    description: 'The clearance ends today unless it is given again.',
  }
}
