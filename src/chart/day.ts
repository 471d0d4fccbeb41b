import { Temporal } from 'temporal-polyfill'
import { z } from 'zod'
import { offsetMs } from './offset.ts'

/** An instant in UTC, always with milliseconds and `Z`, so that the order of the text is the order of time. */
export const Instant = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/, 'an instant in UTC with milliseconds')
export type Instant = z.infer<typeof Instant>

/** A calendar date, `YYYY-MM-DD`, in somebody's own zone. */
export const Day = z.iso.date()
export type Day = z.infer<typeof Day>

/** A time on the wall, `HH:mm`. */
export const WallTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time such as 06:30')

/** An IANA time zone that this machine knows. */
export const Zone = z.string().refine(knownZone, 'an IANA time zone such as Europe/Lisbon')

/** The calendar date at an instant in a zone. */
export function dayAt(now: Instant, zone: string): Day {
  return onTheWall(now, zone).slice(0, 10)
}

/** The time on the wall, `HH:mm`, at an instant in a zone. */
export function wallTimeAt(now: Instant, zone: string): string {
  return onTheWall(now, zone).slice(11, 16)
}

/**
 * The instant of a wall time on a day. A time that the spring change skips is taken an hour later;
 * a time that the autumn change repeats is taken the first time ('compatible' in the standard's words).
 */
export function instantAt(day: Day, wallTime: string, zone: string): Instant {
  const wallMs = Date.parse(`${day}T${wallTime}:00.000Z`)
  const instantMs = wallMs - offsetMs(wallMs, zone)
  // Far from any change the offset is the same on both sides, and there is nothing to choose.
  const around = [-2, 2].map((days) => offsetMs(instantMs + days * dayMs, zone))
  if (around.every((offset) => offset === offsetMs(wallMs, zone))) return new Date(instantMs).toISOString()
  const local = Temporal.PlainDateTime.from(`${day}T${wallTime}`)
  return plusMinutes(local.toZonedDateTime(zone, { disambiguation: 'compatible' }).toInstant().toString(), 0)
}

export function plusMinutes(instant: string, minutes: number): Instant {
  return new Date(Date.parse(instant) + minutes * 60_000).toISOString()
}

export function minutesBetween(from: Instant, to: Instant): number {
  return (Date.parse(to) - Date.parse(from)) / 60_000
}

export function plusDays(day: Day, days: number): Day {
  return new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10)
}

/** Whole days from one date to a later one; negative when the second is the earlier. */
export function daysBetween(from: Day, to: Day): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)
}

/** Calendar months, not multiples of thirty days: nine months from 2 February is 2 November (T12). */
export function plusMonths(day: Day, months: number): Day {
  return Temporal.PlainDate.from(day).add({ months }).toString()
}

export const Weekday = z.enum(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'])
export type Weekday = z.infer<typeof Weekday>

export function weekdayOf(day: Day): Weekday {
  return Weekday.options[(new Date(Date.parse(day)).getUTCDay() + 6) % 7] as Weekday
}

const dayMs = 86_400_000

function onTheWall(now: Instant, zone: string): string {
  const nowMs = Date.parse(now)
  return new Date(nowMs + offsetMs(nowMs, zone)).toISOString()
}

const zonesSeen = new Set<string>()

/** Asking costs a tenth of a millisecond, and every enrolment names a zone. */
function knownZone(zone: string): boolean {
  if (zonesSeen.has(zone)) return true
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone })
    zonesSeen.add(zone)
    return true
  } catch {
    return false
  }
}
