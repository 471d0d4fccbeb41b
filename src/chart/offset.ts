import { Temporal } from 'temporal-polyfill'

const hourMs = 3_600_000
/** About a year of one zone. */
const mostHours = 10_000
const zones = new Map<string, Map<number, number | 'changes'>>()

/**
 * Milliseconds that the wall of a zone is ahead of UTC. Asking the calendar costs some twenty microseconds and a
 * morning asks for every athlete, so an answer that holds for the whole hour is remembered for it.
 */
export function offsetMs(instantMs: number, zone: string): number {
  const hour = Math.floor(instantMs / hourMs)
  const offset = hoursOf(zone).get(hour) ?? look(hour, zone)
  return offset === 'changes' ? lookUp(instantMs, zone) : offset
}

function hoursOf(zone: string): Map<number, number | 'changes'> {
  const hours = zones.get(zone) ?? new Map()
  if (hours.size >= mostHours) hours.clear()
  zones.set(zone, hours)
  return hours
}

function look(hour: number, zone: string): number | 'changes' {
  const first = lookUp(hour * hourMs, zone)
  const offset = first === lookUp((hour + 1) * hourMs - 1, zone) ? first : 'changes'
  hoursOf(zone).set(hour, offset)
  return offset
}

function lookUp(instantMs: number, zone: string): number {
  const wall = Temporal.Instant.fromEpochMilliseconds(instantMs).toZonedDateTimeISO(zone)
  return wall.offsetNanoseconds / 1_000_000
}
