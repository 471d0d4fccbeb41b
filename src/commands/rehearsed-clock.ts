import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Instant } from '../chart/day.ts'
import type { Clock } from '../desk/ports.ts'
import { systemClock } from '../main.ts'

const fileName = 'rehearsed-clock.json'

/** Leaves the rehearsal's clock beside its charts: what is made of them later is made as of then. */
export function keepClock(folder: string, clock: Clock): string {
  writeFileSync(join(folder, fileName), JSON.stringify({ now: clock.now() }))
  return `Kept in ${folder}: the charts of the rehearsal, whose clock stands at ${clock.now()}.`
}

/** The clock for a data folder: the machine's, or the standing one of a rehearsal. */
export function clockFor(folder: string): Clock {
  const path = join(folder, fileName)
  if (!existsSync(path)) return systemClock
  const now = Instant.parse(JSON.parse(readFileSync(path, 'utf8')).now)
  return { now: () => now }
}
