import { type Chart, sessionOf } from '../chart/chart.ts'
import type { LineStatus } from '../chart/criteria.ts'
import type { CriteriaLine, CriteriaSet, Measured, Ran, Since } from '../chart/criteria-set.ts'
import { type Day, daysBetween, plusDays, plusMonths } from '../chart/day.ts'
import type { SessionDone } from '../chart/session.ts'
import { readingOf, symmetryPct } from './measures.ts'
import { respond } from './response.ts'
import type { Shelf } from './shelf.ts'

/** One line of a set against the chart: what was found, when, and until when it counts. */
export type LineStanding = {
  readonly line: CriteriaLine
  readonly status: LineStatus
  readonly value: number | undefined
  /** The day of the measurement, of the run, or on which the time is reached. */
  readonly day: Day | undefined
  readonly expires: Day | undefined
}

type Found = Pick<LineStanding, 'value' | 'day'> & { readonly holds: boolean }

/** Every line that counts for this episode, in the order of the set. It never passes by itself: a therapist signs. */
export function standingOf(
  set: CriteriaSet,
  chart: Chart,
  shelf: Pick<Shelf, 'measure'>,
  today: Day,
): readonly LineStanding[] {
  return set.lines
    .filter((line) => counts(line, chart))
    .map((line) => statusOf(line, foundFor(line, chart, shelf, today), today))
}

/** Whether every line that decides is met. */
export function allMet(lines: readonly LineStanding[]): boolean {
  return lines.every(({ line, status }) => !line.gates || status === 'met')
}

/** The sets that are asked for this episode. */
export function setsFor(chart: Chart, shelf: Pick<Shelf, 'criteriaSets'>): readonly CriteriaSet[] {
  const { episode } = chart
  if (!episode) return []
  return shelf.criteriaSets.filter(
    (set) =>
      set.tissues.includes(episode.tissue) &&
      (set.diagnoses.includes('any') || set.diagnoses.some((name) => sameWords(name, episode.diagnosis))),
  )
}

/** A risk that nobody wrote down counts as high; a repair that nobody wrote down counts as none. */
function counts({ when }: CriteriaLine, chart: Chart): boolean {
  if (!when) return true
  if ('healingRisk' in when) return (chart.episode?.healingRisk ?? 'high') === when.healingRisk
  return (chart.episode?.meniscusRepair ?? false) === when.meniscusRepair
}

function foundFor(
  line: CriteriaLine,
  chart: Chart,
  shelf: Pick<Shelf, 'measure'>,
  today: Day,
): Found | undefined {
  if ('measure' in line) return measured(line, chart, shelf)
  if ('since' in line) return reached(line, chart, today)
  return ran(line, chart, today)
}

function statusOf(line: CriteriaLine, found: Found | undefined, today: Day): LineStanding {
  if (!found) return { line, status: 'missing', value: undefined, day: undefined, expires: undefined }
  const { value, day, holds } = found
  const expires = line.expiresAfterDays && day ? plusDays(day, line.expiresAfterDays) : undefined
  const expired = expires !== undefined && today > expires
  return { line, status: expired ? 'expired' : holds ? 'met' : 'not met', value, day, expires }
}

/** The newest measurement of the day that counts; a later entry of the same day wins. */
function measured(line: Measured, chart: Chart, shelf: Pick<Shelf, 'measure'>): Found | undefined {
  const kind = shelf.measure(line.measure)
  const newest = chart.measures
    .filter((measure) => measure.measure === line.measure)
    .reduce<Chart['measures'][number] | undefined>(
      (best, m) => (!best || m.day >= best.day ? m : best),
      undefined,
    )
  if (!kind || !newest) return undefined
  const value = line.as === 'symmetry' ? symmetryPct(kind, newest) : readingOf(kind, newest)
  return value === undefined ? undefined : { value, day: newest.day, holds: passes(line, value) }
}

function passes({ atLeast, above, atMost, below }: Measured, value: number): boolean {
  if (atLeast !== undefined) return value >= atLeast
  if (above !== undefined) return value > above
  if (atMost !== undefined) return value <= atMost
  return below !== undefined && value < below
}

function reached(line: Since, chart: Chart, today: Day): Found | undefined {
  const from = line.since === 'surgery' ? chart.episode?.surgeryDay : chart.episode?.onsetDay
  if (!from) return undefined
  const day = line.months ? plusMonths(from, line.months) : plusDays(from, 7 * (line.weeks ?? 0))
  return { value: daysBetween(from, today), day, holds: today >= day }
}

/** The newest run that is long and heavy enough decides; what came of it must have settled. */
function ran({ ran: wanted }: Ran, chart: Chart, today: Day): Found | undefined {
  const long = chart.sessions
    .filter((session) => minutesAbove(session, wanted.aboveBodyWeightPct) > wanted.aboveMinutes)
    .toSorted((a, b) => (a.day < b.day ? -1 : 1))
    .at(-1)
  const session = long && sessionOf(chart, long.day)
  if (!session) return undefined
  const painFree = session.painDuring <= wanted.painMost && session.painAfter <= wanted.painMost
  const holds = painFree && respond(chart, session, today).response === 'settled'
  return { value: minutesAbove(session, wanted.aboveBodyWeightPct), day: session.day, holds }
}

function minutesAbove(session: SessionDone, bodyWeightPct: number): number {
  return session.bouts
    .filter((b) => b.gait === 'run' && (b.measuredBodyWeightPct ?? b.bodyWeightPct) > bodyWeightPct)
    .reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
}

function sameWords(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase()
}
