import type { Chart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Day } from '../chart/day.ts'
import type { LadderWish } from '../chart/ladder-wish.ts'
import { type Built, build } from './builder.ts'
import type { Refusal } from './decision.ts'
import { faultsOf } from './ladder-check.ts'

/**
 * The ladder that a wish comes to for one athlete: for the tissue of the episode, on the clinic's treadmill, with the
 * athlete's own mass. The same chart, clinic and day give the same ladder, so what is signed is built here again and
 * never taken from a form (D20).
 */
export function ladderFor(
  { athlete, entries, enrolment, episode }: Chart,
  wish: LadderWish,
  { treadmill }: Clinic,
  day: Day,
): Built | Refusal {
  if (!episode) return { refused: 'no-episode', words: 'Write the episode first.', field: 'athlete' }
  const built = build({
    ...wish,
    id: `built-for-${athlete}`,
    effective: day,
    tissues: [episode.tissue],
    diagnoses: [episode.diagnosis],
    treadmill,
    runner: { massKg: enrolment?.bodyMassKg, sex: enrolment?.sex },
  })
  if ('refused' in built) return built
  const earlier = entries.filter((entry) => entry.kind === 'plan-signed' && entry.builtFrom).length
  const ladder = { ...built.ladder, version: earlier + 1 }
  const fault = faultsOf(ladder)[0]
  return fault ? { refused: 'cannot-build', words: fault.words, field: 'ladder' } : { ...built, ladder }
}
