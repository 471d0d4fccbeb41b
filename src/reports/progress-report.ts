import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant, wallTimeAt } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import type { Shelf } from '../rules/shelf.ts'
import { progressOf, zoneOf } from './progress.ts'
import {
  continuum,
  corrections,
  criteria,
  type Draft,
  episode,
  type Most,
  measures,
  next,
  picture,
  runs,
  signatures,
  signedCriteria,
  warnings,
} from './report-sections.ts'
import { openSheet, type Paper } from './sheet.ts'

export type ReportOptions = {
  readonly paper?: Paper
  /** Who is to have it. */
  readonly for?: string
  /** Criteria and measures as clinicians agreed on them; without it the report says that none was looked at. */
  readonly shelf?: Pick<Shelf, 'measure' | 'criteriaSets'>
}

const roomy: Most = { runs: 12, warnings: 6, corrections: 4, measures: 8, letters: 400 }
const tight: Most = { runs: 6, warnings: 3, corrections: 2, measures: 5, letters: 120 }

type Layout = {
  readonly most: Most
  readonly picturePt: number
  readonly scale: number
  readonly mostPages: number
}

/** Tried in this order: what fits on one page stays on one; what needs two fills them in larger letters, if they hold it. */
const layouts: readonly Layout[] = [
  { most: roomy, picturePt: 158, scale: 1, mostPages: 1 },
  { most: roomy, picturePt: 220, scale: 1.12, mostPages: 2 },
  { most: roomy, picturePt: 190, scale: 1, mostPages: 2 },
]
const lastResort: Layout = { most: tight, picturePt: 120, scale: 1, mostPages: 2 }

/**
 * The progress report for the surgeon or referring physician: one to two pages of PDF, tagged, in an embedded font; a
 * long record is told in fewer lines, and says so. Hand it the chart as its reader may see it (`asHandedTo`); free words
 * of the athlete are not in it.
 */
export function progressReport(
  chart: Chart,
  team: Team,
  now: Instant,
  options: ReportOptions = {},
): Promise<Uint8Array> {
  const name = nameOf(team, chart.athlete)
  const zone = zoneOf(chart, team)
  const made = `${name} (${chart.athlete}), entry ${chart.entries.length} of the record, made ${dayAt(now, zone)} ${wallTimeAt(now, zone)} ${zone}`
  const draw = (layout: Layout) => drawn(chart, team, now, { ...options, ...layout })
  for (const layout of layouts) {
    const sheet = draw(layout)
    if (sheet.pages() <= layout.mostPages) return sheet.finish(made)
  }
  return draw(lastResort).finish(made)
}

function drawn(chart: Chart, team: Team, now: Instant, options: ReportOptions & Layout): Draft['sheet'] {
  const { enrolment } = chart
  const title = `Progress report: ${nameOf(team, chart.athlete)}`
  const { paper = 'A4', scale, shelf, most, picturePt } = options
  const sheet = openSheet({ paper, title, author: team.clinic.name, now, scale })
  const progress = progressOf(chart, team, now)
  const draft: Draft = { sheet, chart, team, progress, shelf, most, picturePt }
  sheet.heading(title, 1)
  sheet.paragraph(
    `${team.clinic.name}, ${progress.today}${options.for ? `. For ${options.for}` : ''}. Treating therapist: ${enrolment ? nameOf(team, enrolment.therapist) : 'none'}${enrolment?.cover ? `, cover ${nameOf(team, enrolment.cover)}` : ''}.`,
  )
  const sections = [episode, continuum, picture, runs, criteria, signedCriteria, measures, warnings, next]
  for (const section of [...sections, corrections, signatures]) section(draft)
  return sheet
}
