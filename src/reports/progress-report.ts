import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant, wallTimeAt } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { symmetryPct } from '../rules/measures.ts'
import type { Shelf } from '../rules/shelf.ts'
import { criteriaFound } from './criteria-lines.ts'
import { ceilingWords, rounded } from './dose-words.ts'
import { drawPicture, pictured, pictureWords } from './picture.ts'
import { type Progress, progressOf, zoneOf } from './progress.ts'
import { openSheet, type Paper, type Sheet } from './sheet.ts'

export type ReportOptions = {
  readonly paper?: Paper
  /** Who is to have it. */
  readonly for?: string
  /** Criteria and measures as clinicians agreed on them; without it the report says that none was looked at. */
  readonly shelf?: Pick<Shelf, 'measure' | 'criteriaSets'>
}

/** How many are shown one by one: the report stays at two pages, the rest is in the other exports. */
const mostRuns = 12
const mostWarnings = 6
const mostCorrections = 4
const mostMeasures = 8
const mostLetters = 400

/**
 * The progress report for the surgeon or referring physician: one to two pages of PDF, tagged, in an embedded font.
 * Hand it the chart as its reader may see it (`asHandedTo`); free words of the athlete are not in it.
 */
export function progressReport(
  chart: Chart,
  team: Team,
  now: Instant,
  options: ReportOptions = {},
): Promise<Uint8Array> {
  const { enrolment } = chart
  const name = nameOf(team, chart.athlete)
  const title = `Progress report: ${name}`
  const sheet = openSheet({ paper: options.paper ?? 'A4', title, author: team.clinic.name, now })
  const progress = progressOf(chart, team, now)
  sheet.heading(title, 1)
  sheet.paragraph(
    `${team.clinic.name}, ${progress.today}${options.for ? `. For ${options.for}` : ''}. Treating therapist: ${enrolment ? nameOf(team, enrolment.therapist) : 'none'}${enrolment?.cover ? `, cover ${nameOf(team, enrolment.cover)}` : ''}.`,
  )
  episode(sheet, chart)
  continuum(sheet, chart, progress, team)
  picture(sheet, chart, progress)
  runs(sheet, progress)
  criteria(sheet, chart, progress, options.shelf)
  signedCriteria(sheet, chart, team)
  measures(sheet, chart, options.shelf)
  warnings(sheet, chart, progress, team)
  next(sheet, chart, progress)
  corrections(sheet, progress)
  signatures(sheet, chart, team)
  const zone = zoneOf(chart, team)
  const made = `${name} (${chart.athlete}), entry ${chart.entries.length} of the record, made ${dayAt(now, zone)} ${wallTimeAt(now, zone)} ${zone}`
  return sheet.finish(made)
}

function episode(sheet: Sheet, { episode }: Chart): void {
  sheet.heading('The injury')
  if (!episode) {
    sheet.paragraph('No episode is written down.')
    return
  }
  const side = episode.side === 'none' ? '' : `, ${episode.side}`
  sheet.paragraph(
    `${episode.diagnosis}: ${episode.site}${side}. Since ${episode.onsetDay}.${episode.surgeryDay ? ` Surgery ${episode.surgeryDay}.` : ''}${episode.noRunBefore ? ` No running before ${episode.noRunBefore}.` : ''}${episode.words ? ` ${cut(episode.words)}` : ''}`,
  )
}

/** The continuum in words, the state of today in bold and between marks, so that it needs no colour. */
function continuum(sheet: Sheet, { clearance }: Chart, { state, states, today }: Progress, team: Team): void {
  sheet.heading('Where on the way back')
  sheet.paragraph(
    states.map((one) => (one === state ? `[${one.toUpperCase()}]` : one)).join('  →  '),
    'strong',
  )
  if (!clearance) {
    sheet.paragraph('No clearance is signed.')
    return
  }
  const lapsed = clearance.until < today ? ', which is over' : ''
  sheet.paragraph(
    `Cleared by ${nameOf(team, clearance.author)} for ${clearance.state} until ${clearance.until}${lapsed}${clearance.ceiling ? `: ${ceilingWords(clearance.ceiling)}` : ''}.${clearance.words ? ` ${cut(clearance.words)}` : ''}`,
  )
}

function picture(sheet: Sheet, chart: Chart, { today, mornings }: Progress): void {
  sheet.heading('Pain and dose, day by day')
  const shown = pictured(chart, today)
  sheet.picture(190, pictureWords(shown), (pen, box) => drawPicture(pen, box, shown))
  sheet.paragraph(
    `${mornings.answered} mornings answered, ${mornings.missed} not. A morning without an answer is shown as a dash and counts for nothing.`,
    'small',
  )
}

function runs(sheet: Sheet, { runs }: Progress): void {
  sheet.heading('Prescribed and done')
  if (runs.length === 0) {
    sheet.paragraph('No run is logged yet.')
    return
  }
  if (runs.length > mostRuns) sheet.paragraph(`The last ${mostRuns} of ${runs.length} runs.`)
  sheet.grid({
    widths: [12, 7, 23, 24, 14, 8, 12],
    head: ['Day', 'Rung', 'Prescribed', 'Done', 'Pain before, during, after', 'Effort', 'Within 24 h'],
    rows: runs
      .slice(-mostRuns)
      .map(({ session, prescribed, done, response }) => [
        session.day,
        String(session.rung),
        prescribed,
        done,
        `${session.painBefore}, ${session.painDuring}, ${session.painAfter}`,
        rounded(session.rpe),
        response,
      ]),
  })
  sheet.paragraph(
    'Percent is body weight carried; what the treadmill supports is 100 minus it. Pain and effort are 0 to 10.',
    'small',
  )
}

function criteria(sheet: Sheet, chart: Chart, progress: Progress, shelf: ReportOptions['shelf']): void {
  sheet.heading('Criteria for the next step')
  const sets = shelf ? criteriaFound(chart, shelf, progress) : []
  for (const { title, lines } of sets) {
    sheet.paragraph(title, 'strong')
    sheet.grid({
      widths: [44, 11, 12, 19, 20],
      head: ['Criterion', 'Status', 'Value', 'Day, and until', 'Source'],
      rows: lines.map((line) => [
        line.words,
        line.status,
        line.value,
        `${line.day ?? ''}${line.expires ? `, until ${line.expires}` : ''}`,
        line.source,
      ]),
    })
  }
  if (sets.length > 0) return
  const exit = chart.plan?.ladder.exit.join('; ')
  sheet.paragraph(
    `No criteria set was looked at.${exit ? ` The ladder asks, for the therapist to judge: ${exit}.` : ''}`,
  )
}

/** What was signed stands as it was signed, against the set or not, with the reason. */
function signedCriteria(sheet: Sheet, { criteriaSigned }: Chart, team: Team): void {
  for (const one of criteriaSigned.slice(-mostCorrections)) {
    const by = `${nameOf(team, one.author)} on ${dayAt(one.recordedAt, team.clinic.timeZone)}`
    const words = one.words ? ` ${cut(one.words)}` : ''
    sheet.paragraph(`${one.set} was signed ${one.against ? 'AGAINST it ' : ''}by ${by}.${words}`)
  }
}

function measures(sheet: Sheet, { measures }: Chart, shelf: ReportOptions['shelf']): void {
  const newest = new Map(measures.map((measure) => [measure.measure, measure]))
  if (newest.size === 0) return
  sheet.heading('Last measurements')
  sheet.grid({
    widths: [44, 16, 20, 14, 14],
    head: ['Measure', 'Day', 'Value, or injured side', 'Other side', 'Symmetry'],
    rows: [...newest.values()].slice(-mostMeasures).map((measure) => {
      const kind = shelf?.measure(measure.measure)
      const symmetry = kind && symmetryPct(kind, measure)
      return [
        kind?.title ?? measure.measure.replaceAll('-', ' '),
        measure.day,
        `${rounded(measure.value, 2)} ${kind?.unit ?? ''}`.trim(),
        measure.otherSide === undefined ? '' : rounded(measure.otherSide, 2),
        symmetry === undefined ? '' : `${rounded(symmetry)} %`,
      ]
    }),
  })
}

function warnings(sheet: Sheet, chart: Chart, { warnings }: Progress, team: Team): void {
  sheet.heading('Holds and red flags')
  if (warnings.length === 0) {
    sheet.paragraph('None.')
    return
  }
  if (warnings.length > mostWarnings) sheet.paragraph(`The last ${mostWarnings} of ${warnings.length}.`)
  sheet.grid({
    widths: [12, 13, 38, 37],
    head: ['Day', 'What', 'Why', 'What came of it'],
    rows: warnings
      .slice(-mostWarnings)
      .map((one) => [
        dayAt(one.at, zoneOf(chart, team)),
        one.what === 'hold' ? 'hold' : `red flag, ${one.what}`,
        cut(one.words),
        cut(one.end) || 'open',
      ]),
  })
}

function next(sheet: Sheet, { plan, sessions, holds }: Chart, { state }: Progress): void {
  sheet.heading('What comes next')
  if (!plan) {
    sheet.paragraph('A plan must be signed first.')
    return
  }
  const at = sessions.at(-1)?.rung ?? plan.startRung
  const [now, after] = [plan.ladder.rungs[at - 1], plan.ladder.rungs[at]]
  sheet.paragraph(
    `${plan.ladder.title} (${plan.ladder.id}, version ${plan.ladder.version}): rung ${at} of ${plan.ladder.rungs.length}${now ? `, ${now.bodyWeightPct} % carried` : ''}. ${after ? `Next, when the runs have settled: ${after.name}, ${after.bodyWeightPct} % carried.` : 'This is its last rung: the therapist decides what follows.'}${holds.length > 0 ? ' Running is on hold until a therapist lifts it.' : state === 'no running' ? ' No running until a therapist clears it.' : ''} Each morning is asked again; no step is taken without an answer.`,
  )
  sheet.paragraph(
    `Sources: ${plan.ladder.sources.map(({ key, label }) => `${key} (${label})`).join(', ')}.`,
    'small',
  )
}

function corrections(sheet: Sheet, { corrections }: Progress): void {
  if (corrections.length === 0) return
  sheet.heading('Corrections')
  if (corrections.length > mostCorrections)
    sheet.paragraph(`The last ${mostCorrections} of ${corrections.length}.`)
  for (const words of corrections.slice(-mostCorrections)) sheet.paragraph(cut(words))
}

function signatures(sheet: Sheet, { plan, clearance }: Chart, team: Team): void {
  sheet.heading('Signed')
  const signed = (what: string, entry: { author: string; recordedAt: Instant } | undefined) =>
    entry
      ? [`${what} by ${nameOf(team, entry.author)} on ${dayAt(entry.recordedAt, team.clinic.timeZone)}`]
      : []
  const by = [...signed('plan', plan), ...signed('clearance', clearance)]
  sheet.paragraph(by.length > 0 ? `Signed in the record: ${by.join('; ')}.` : 'Nothing is signed yet.')
  sheet.paragraph(
    `Made from the record by rules; not a diagnosis, and it replaces no examination. Decisions stay with the therapist who signed. Pain and effort are what the athlete said. In an emergency: ${team.clinic.emergencyNumber}. Confidential: for the reader named above.`,
    'small',
  )
}

function cut(words: string): string {
  return words.length > mostLetters ? `${words.slice(0, mostLetters)} … (whole in the record)` : words
}
