import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Tissue } from '../chart/ladder.ts'
import type { SessionDone } from '../chart/session.ts'
import { jointAnswer } from './response-joint.ts'
import { painFreeAnswer } from './response-pain-free.ts'
import { tendonAnswer } from './response-tendon.ts'
import { type Answer, type Watch, watchOf } from './response-watch.ts'
import { settingsOf } from './settings.ts'

/** One rule for each tissue, never mixed: what a tendon may feel stops a bone (T8). */
const families: Record<Tissue, (watch: Watch) => Answer> = {
  bone: painFreeAnswer,
  joint: jointAnswer,
  tendon: tendonAnswer,
  muscle: painFreeAnswer,
}

/**
 * The response to a session in the 24 hours after it (48 where the plan says so): settled, provoked, flared, or
 * unknown. What hurt is read first, so that a missing morning never hides it; silence is never read as fine.
 */
export function respond(chart: Chart, session: SessionDone, today: Day): Answer {
  const family = families[chart.episode?.tissue ?? 'bone']
  return family(watchOf(chart, session, settingsOf(chart), today))
}

/** Pain in the run above what the tissue's rule accepts. */
export function hurtInRun(chart: Chart, session: SessionDone): boolean {
  return session.painDuring > settingsOf(chart).painDuringMost
}
