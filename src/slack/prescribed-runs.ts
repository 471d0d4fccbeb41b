import type { Bout, Dose } from '../chart/dose.ts'

/** The running of a session bout by bout, as it is logged: jogging between faster bouts is running too. */
export function runsOf(dose: Dose | undefined): readonly Bout[] {
  const bouts = dose?.bouts ?? []
  return bouts.flatMap((bout) => [...(bout.gait === 'run' ? [bout] : []), ...jogOf(bout)])
}

function jogOf({ recovery, ...bout }: Bout): readonly Bout[] {
  const repeats = { low: bout.repeats.low - 1, high: bout.repeats.high - 1 }
  if (recovery?.gait !== 'run' || repeats.low < 1) return []
  const { minutes, distanceM } = recovery
  const { minutes: _own, distanceM: _far, ...rest } = bout
  const long = minutes === undefined ? {} : { minutes: { low: minutes, high: minutes } }
  return [{ ...rest, gait: 'run', repeats, ...long, ...(distanceM === undefined ? {} : { distanceM }) }]
}
