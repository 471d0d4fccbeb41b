import type { Chart } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import type { LineStatus } from '../chart/criteria.ts'
import type { CriteriaLine, CriteriaSet } from '../chart/criteria-set.ts'
import type { Day } from '../chart/day.ts'
import { type LineStanding, setsFor, standingOf } from '../rules/criteria.ts'
import type { Shelf } from '../rules/shelf.ts'
import { rounded } from './dose-words.ts'

/** One criterion as it stands: what was asked for, what was found and when, until when it counts, who says so. */
export type CriterionLine = {
  readonly words: string
  readonly status: LineStatus
  readonly value: string
  readonly day: Day | undefined
  readonly expires: Day | undefined
  readonly source: string
}

export type CriteriaFound = { readonly title: string; readonly lines: readonly CriterionLine[] }

/** The sets that are asked for on the next step from this state, line by line; empty when the shelf holds none. */
export function criteriaFound(
  chart: Chart,
  shelf: Pick<Shelf, 'measure' | 'criteriaSets'>,
  { state, today }: { readonly state: State; readonly today: Day },
): readonly CriteriaFound[] {
  const ahead = setsFor(chart, shelf).filter((set) => stepOf(set.towards) > stepOf(state))
  const next = Math.min(...ahead.map((set) => stepOf(set.towards)))
  return newestOfEach(ahead.filter((set) => stepOf(set.towards) === next)).map((set) => ({
    title: set.title,
    lines: standingOf(set, chart, shelf, today).map((standing) => lineOf(standing, shelf)),
  }))
}

function stepOf(state: State): number {
  return State.options.indexOf(state)
}

function newestOfEach(sets: readonly CriteriaSet[]): readonly CriteriaSet[] {
  return [...new Map(sets.map((set) => [set.id, set])).values()]
}

function lineOf(
  { line, status, value, day, expires }: LineStanding,
  shelf: Pick<Shelf, 'measure'>,
): CriterionLine {
  return {
    words: line.gates ? line.words : `${line.words} (shown, decides nothing)`,
    status,
    value: value === undefined ? '' : `${rounded(value)} ${unitOf(line, shelf)}`.trim(),
    day,
    expires,
    source: `${line.source} (${line.label})`,
  }
}

function unitOf(line: CriteriaLine, shelf: Pick<Shelf, 'measure'>): string {
  if ('since' in line) return 'days'
  if ('ran' in line) return 'min'
  return line.as === 'symmetry' ? '%' : (shelf.measure(line.measure)?.unit ?? '')
}
