import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { symmetryPct } from '../rules/measures.ts'
import type { Shelf } from '../rules/shelf.ts'
import { criteriaFound } from './criteria-lines.ts'
import { ceilingWords, rounded } from './dose-words.ts'
import { drawPicture, pictured, pictureWords } from './picture.ts'
import { type Progress, zoneOf } from './progress.ts'
import type { Sheet } from './sheet.ts'

/** A report on its way to paper, and what each section is made from. */
export type Draft = {
  readonly sheet: Sheet
  readonly chart: Chart
  readonly team: Team
  readonly progress: Progress
  readonly shelf: Pick<Shelf, 'measure' | 'criteriaSets'> | undefined
  readonly most: Most
  readonly picturePt: number
}

/** How many are shown one by one, the last ones, and how long words may be. What is left out is said. */
export type Most = {
  readonly runs: number
  readonly warnings: number
  readonly corrections: number
  readonly measures: number
  readonly letters: number
}

export function episode({ sheet, chart: { episode }, most }: Draft): void {
  sheet.heading('The injury')
  if (!episode) {
    sheet.paragraph('No episode is written down.')
    return
  }
  const side = episode.side === 'none' ? '' : `, ${episode.side}`
  sheet.paragraph(
    `${episode.diagnosis}: ${episode.site}${side}. Since ${episode.onsetDay}.${episode.surgeryDay ? ` Surgery ${episode.surgeryDay}.` : ''}${episode.noRunBefore ? ` No running before ${episode.noRunBefore}.` : ''}${episode.words ? ` ${cut(episode.words, most)}` : ''}`,
  )
}

/** The continuum in words, the state of today in bold and between marks, so that it needs no colour. */
export function continuum({ sheet, chart: { clearance }, progress, team, most }: Draft): void {
  const { state, states, today } = progress
  sheet.heading('Where on the way back')
  sheet.paragraph(
    states.map((one) => unbroken(one === state ? `[${one.toUpperCase()}]` : one)).join(' → '),
    'strong',
  )
  if (!clearance) {
    sheet.paragraph('No clearance is signed.')
    return
  }
  const lapsed = clearance.until < today ? ', which is over' : ''
  sheet.paragraph(
    `Cleared by ${nameOf(team, clearance.author)} for ${clearance.state} until ${clearance.until}${lapsed}${clearance.ceiling ? `: ${ceilingWords(clearance.ceiling)}` : ''}.${clearance.words ? ` ${cut(clearance.words, most)}` : ''}`,
  )
}

export function picture({ sheet, chart, progress: { today, mornings }, picturePt }: Draft): void {
  sheet.heading('Pain and dose, day by day')
  const shown = pictured(chart, today)
  sheet.picture(picturePt, pictureWords(shown), (pen, box) => drawPicture(pen, box, shown))
  sheet.paragraph(
    `${mornings.answered} mornings answered, ${mornings.missed} not. A morning without an answer is shown as a dash and counts for nothing.`,
    'small',
  )
}

export function runs({ sheet, progress: { runs }, most }: Draft): void {
  sheet.heading('Prescribed and done')
  if (runs.length === 0) {
    sheet.paragraph('No run is logged yet.')
    return
  }
  if (runs.length > most.runs) sheet.paragraph(`The last ${most.runs} of ${runs.length} runs.`)
  sheet.grid({
    widths: [11, 7, 22, 26, 14, 8, 13],
    head: ['Day', 'Rung', 'Prescribed', 'Done', 'Pain before, during, after', 'Effort', 'Within 24 h'],
    rows: runs
      .slice(-most.runs)
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

export function criteria({ sheet, chart, progress, shelf }: Draft): void {
  sheet.heading('Criteria for the next step')
  const sets = shelf ? criteriaFound(chart, shelf, progress) : []
  for (const { title, lines } of sets) {
    sheet.paragraph(title, 'strong')
    sheet.grid({
      widths: [41, 10, 12, 18, 25],
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
export function signedCriteria({ sheet, chart: { criteriaSigned }, team, most }: Draft): void {
  for (const one of criteriaSigned.slice(-most.corrections)) {
    const by = `${nameOf(team, one.author)} on ${dayAt(one.recordedAt, team.clinic.timeZone)}`
    const words = one.words ? ` ${cut(one.words, most)}` : ''
    sheet.paragraph(`${one.set} was signed ${one.against ? 'AGAINST it ' : ''}by ${by}.${words}`)
  }
}

export function measures({ sheet, chart: { measures }, shelf, most }: Draft): void {
  const newest = new Map(measures.map((measure) => [measure.measure, measure]))
  if (newest.size === 0) return
  sheet.heading('Last measurements')
  sheet.grid({
    widths: [44, 16, 20, 14, 14],
    head: ['Measure', 'Day', 'Value, or injured side', 'Other side', 'Symmetry'],
    rows: [...newest.values()].slice(-most.measures).map((measure) => {
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

export function warnings({ sheet, chart, progress: { warnings }, team, most }: Draft): void {
  sheet.heading('Holds and red flags')
  if (warnings.length === 0) {
    sheet.paragraph('None.')
    return
  }
  if (warnings.length > most.warnings) sheet.paragraph(`The last ${most.warnings} of ${warnings.length}.`)
  sheet.grid({
    widths: [12, 13, 38, 37],
    head: ['Day', 'What', 'Why', 'What came of it'],
    rows: warnings
      .slice(-most.warnings)
      .map((one) => [
        dayAt(one.at, zoneOf(chart, team)),
        one.what === 'hold' ? 'hold' : `red flag, ${one.what}`,
        cut(one.words, most),
        cut(one.end, most) || 'open',
      ]),
  })
}

export function next({ sheet, chart: { plan, sessions, holds }, progress: { state } }: Draft): void {
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

export function corrections({ sheet, progress: { corrections }, most }: Draft): void {
  if (corrections.length === 0) return
  sheet.heading('Corrections')
  if (corrections.length > most.corrections)
    sheet.paragraph(`The last ${most.corrections} of ${corrections.length}.`)
  for (const words of corrections.slice(-most.corrections)) sheet.paragraph(cut(words, most))
}

export function signatures({ sheet, chart: { plan, clearance }, team }: Draft): void {
  sheet.heading('Signed')
  const signed = (what: string, entry: { author: string; recordedAt: Instant } | undefined) =>
    entry
      ? [`${what} by ${nameOf(team, entry.author)} on ${dayAt(entry.recordedAt, team.clinic.timeZone)}`]
      : []
  const by = [...signed('plan', plan), ...signed('clearance', clearance)]
  sheet.paragraph(by.length > 0 ? `Signed in the record: ${by.join('; ')}.` : 'Nothing is signed yet.')
  const undrawn = sheet.undrawn()
  if (undrawn.length > 0)
    sheet.paragraph(
      `Letters that the fonts of this page cannot draw stand as their code points: ${undrawn.join(', ')}. They are whole in the record; nothing was put in their place.`,
    )
  sheet.paragraph(
    `Made from the record by rules; not a diagnosis, and it replaces no examination. Decisions stay with the therapist who signed. Pain and effort are what the athlete said. In an emergency: ${team.clinic.emergencyNumber}. Confidential: for the reader named above.`,
    'small',
  )
}

/** A state is never broken over two lines. */
function unbroken(words: string): string {
  return words.replaceAll(' ', '\u00a0')
}

function cut(words: string, { letters }: Most): string {
  return words.length > letters ? `${words.slice(0, letters)} … (whole in the record)` : words
}
