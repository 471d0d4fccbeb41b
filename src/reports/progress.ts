import { type Chart, type Escalation, prescriptionOf } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import { type Day, dayAt, type Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import type { SessionDone } from '../chart/session.ts'
import type { Because } from '../chart/signing.ts'
import { standingEntries } from '../chart/struck.ts'
import { amendRequests } from '../rules/amend-request.ts'
import { respond } from '../rules/response.ts'
import { doneWords, rangeWords } from './dose-words.ts'

/** One run: what was asked for, what was done, how it hurt, how the body answered. */
export type RunLine = {
  readonly session: SessionDone
  readonly prescribed: string
  readonly done: string
  readonly response: string
}

/** A hold or a red flag from its beginning to its end; open while `end` is empty. */
export type WarningLine = {
  readonly what: 'hold' | 'emergency' | 'urgent'
  readonly at: Instant
  readonly words: string
  readonly end: string
}

/** A month of an athlete as facts, before anything is laid out. */
export type Progress = {
  readonly today: Day
  /** Where on the continuum today: what the clearance says, unless a hold or its last day says no running. */
  readonly state: State
  readonly states: readonly State[]
  readonly runs: readonly RunLine[]
  readonly mornings: { readonly answered: number; readonly missed: number }
  readonly warnings: readonly WarningLine[]
  readonly corrections: readonly string[]
}

/** What a progress report says. Undefined fields stay undefined: nothing is filled in. */
export function progressOf(chart: Chart, team: Team, now: Instant): Progress {
  const today = dayAt(now, zoneOf(chart, team))
  return {
    today,
    state: stateOn(chart, today),
    states: State.options,
    runs: chart.sessions.map((session) => runLine(chart, session, today)),
    mornings: { answered: chart.checkIns.length, missed: chart.missed.size },
    warnings: [...holds(chart, team), ...chart.escalations.map((e) => redFlag(e, chart, team))].toSorted(
      (a, b) => (a.at < b.at ? -1 : 1),
    ),
    corrections: corrections(chart, team),
  }
}

export function zoneOf(chart: Chart, { clinic }: Team): string {
  return chart.enrolment?.timeZone ?? clinic.timeZone
}

function stateOn({ clearance, holds, escalations }: Chart, today: Day): State {
  const barred = holds.length > 0 || escalations.some((e) => !e.closed && e.concern === 'body')
  return !clearance || barred || clearance.until < today ? 'no running' : clearance.state
}

function runLine(chart: Chart, session: SessionDone, today: Day): RunLine {
  const prescription = prescriptionOf(chart, session.day)
  const runs = prescription?.dose?.bouts.filter((bout) => bout.gait === 'run') ?? []
  const prescribed = runs.map(
    (bout) =>
      `${bout.repeats.high > 1 ? `${rangeWords(bout.repeats)} x ` : ''}${bout.minutes ? `${rangeWords(bout.minutes)} min` : `${bout.distanceM} m`} at ${bout.bodyWeightPct} %`,
  )
  return {
    session,
    prescribed: prescribed.join(', ') || 'no run',
    done: doneWords(session),
    response: respond(chart, session, today).response,
  }
}

/** A hold that a red flag brought is told with the flag; only holds of their own have a line of their own. */
function holds(chart: Chart, team: Team): readonly WarningLine[] {
  const called = new Set(chart.escalations.map((e) => e.id))
  return standingEntries(chart)
    .filter((entry) => entry.kind === 'hold')
    .filter((hold) => !called.has(hold.about))
    .map((hold) => {
      return {
        what: 'hold',
        at: hold.recordedAt,
        words: inWords(hold.because),
        end: lifting(hold.id, chart, team),
      }
    })
}

function redFlag(e: Escalation, chart: Chart, team: Team): WarningLine {
  const { closed } = e
  const taken = [...new Set(e.acknowledgements.map((one) => nameOf(team, one.author)))]
  const hold = standingEntries(chart).find((entry) => entry.kind === 'hold' && entry.about === e.id)
  const came = [
    taken.length > 0 ? `Acknowledged by ${taken.join(', ')}.` : '',
    closed
      ? `Closed by ${signedBy(closed, chart, team)}: ${closed.disposition}. ${closed.words}`
      : 'Still open.',
    hold ? `Hold ${lifting(hold.id, chart, team) || 'in force'}` : '',
  ]
  return {
    what: e.tier,
    at: e.opened.recordedAt,
    words: inWords(e.because),
    end: came.filter((words) => words !== '').join(' '),
  }
}

function lifting(hold: string, chart: Chart, team: Team): string {
  const lifted = standingEntries(chart).find(
    (e): e is EntryOf<'hold-lifted'> => e.kind === 'hold-lifted' && e.hold === hold,
  )
  return lifted ? `lifted by ${signedBy(lifted, chart, team)}: ${lifted.words}` : ''
}

function corrections(chart: Chart, team: Team): readonly string[] {
  const struck = standingEntries(chart).flatMap((entry) =>
    entry.kind === 'amendment'
      ? [`${entry.strikes} was struck by ${signedBy(entry, chart, team)}: ${entry.words}`]
      : [],
  )
  const denied = amendRequests(chart).flatMap(({ asked, answered, disagreement }) =>
    answered?.outcome === 'denied'
      ? [
          `The athlete asked for a correction (${asked.words}) It was refused: ${answered.words}${disagreement ? ` The athlete disagrees: ${disagreement.words}` : ''}`,
        ]
      : [],
  )
  return [...struck, ...denied]
}

function signedBy(entry: { author: string; recordedAt: Instant }, chart: Chart, team: Team): string {
  return `${nameOf(team, entry.author)} on ${dayAt(entry.recordedAt, zoneOf(chart, team))}`
}

function inWords(because: readonly Because[]): string {
  return because.map(({ words, source }) => `${words} [${source}]`).join(' ')
}
