import { dayAt, type Instant, instantAt, plusDays, wallTimeAt } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'

/**
 * Until when the person's quiet hours hold a notice back; undefined outside them. Calls and what stops an athlete
 * are never asked about here: quiet hours hold back everything but those.
 */
export function quietUntil(team: Team, person: string, now: Instant): Instant | undefined {
  const { from, until } = team.clinic.quietHours
  const zone = team.roster.people.get(person)?.timeZone ?? team.clinic.timeZone
  const wall = wallTimeAt(now, zone)
  const today = dayAt(now, zone)
  if (from <= until) return wall >= from && wall < until ? instantAt(today, until, zone) : undefined
  if (wall >= from) return instantAt(plusDays(today, 1), until, zone)
  return wall < until ? instantAt(today, until, zone) : undefined
}
