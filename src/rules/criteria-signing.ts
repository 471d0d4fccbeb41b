import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import { allMet, standingOf } from './criteria.ts'
import type { Refusal } from './decision.ts'
import type { Shelf } from './shelf.ts'
import type { Submission } from './submissions.ts'

type Signed = Omit<EntryOf<'criteria-signed'>, 'id' | 'author' | 'recordedAt'>

/**
 * A therapist's signature under a set. The lines are copied as they stand; when one that decides is not met, the
 * signature goes against the set and needs a written reason.
 */
export function criteriaSigned(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'criteria-signed' }>,
  shelf: Shelf,
  now: Instant,
): Signed | Refusal {
  const set = shelf.criteria(submitted.set)
  if (!set)
    return { refused: 'unknown-criteria', words: `There is no criteria set ${submitted.set}.`, field: 'set' }
  if (!chart.enrolment || !chart.episode)
    return { refused: 'no-episode', words: 'Write the episode first.', field: 'athlete' }
  if (!set.tissues.includes(chart.episode.tissue))
    return { refused: 'other-tissue', words: `This set is for ${set.tissues.join(' and ')}.`, field: 'set' }
  const lines = standingOf(set, chart, shelf, dayAt(now, chart.enrolment.timeZone))
  const against = !allMet(lines)
  if (against && !submitted.words?.trim())
    return {
      refused: 'reason-needed',
      words: `Not all criteria are met (${openLines(lines)}). To sign against them, write the reason.`,
      field: 'words',
    }
  return {
    ...submitted,
    set: `${set.id}@${set.version}`,
    against,
    lines: lines.map(({ line, status, value, day }) => ({
      line: line.line,
      status,
      ...(value === undefined ? {} : { value }),
      ...(day === undefined ? {} : { day }),
    })),
  }
}

function openLines(lines: ReturnType<typeof standingOf>): string {
  return lines
    .filter(({ line, status }) => line.gates && status !== 'met')
    .map(({ line, status }) => `${line.line}: ${status}`)
    .join(', ')
}
