import { type Chart, withEntries } from '../chart/chart.ts'
import { nameOf } from '../chart/roster.ts'
import { answer } from '../rules/answer.ts'
import { isRefusal, type Refusal } from '../rules/decision.ts'
import { refusedTwice } from '../rules/measure-import.ts'
import type { Caller } from '../rules/permissions.ts'
import { Submission } from '../rules/submissions.ts'
import type { Desk } from './desk.ts'
import { receive } from './intake.ts'

/** A line as it was read from a file. */
export type Line = {
  readonly line: number
  readonly submission?: Readonly<Record<string, unknown>>
  readonly fault?: string
}

/** What would become of a line: taken, with its words for the preview, or refused with the reason. */
export type Verdict = { readonly line: number; readonly words: string; readonly take: Measure | undefined }
type Measure = Extract<Submission, { kind: 'measure' }>

/** Judges every line as if those before it were written, and writes nothing. */
export async function previewMeasures(
  desk: Desk,
  caller: Caller,
  lines: readonly Line[],
): Promise<Verdict[]> {
  const charts = new Map<string, Chart>()
  const verdicts: Verdict[] = []
  for (const { line, submission, fault } of lines) {
    if (fault !== undefined) {
      verdicts.push({ line, words: fault, take: undefined })
      continue
    }
    const judged = await judge(desk, caller, charts, submission)
    if (isRefusal(judged)) verdicts.push({ line, words: judged.words, take: undefined })
    else verdicts.push({ line, words: judged.words, take: judged.measure })
  }
  return verdicts
}

/** Writes the lines that were taken, through the ordinary door; answers with those that were refused after all. */
export async function writeMeasures(
  desk: Desk,
  caller: Caller,
  verdicts: readonly Verdict[],
): Promise<Verdict[]> {
  const refused: Verdict[] = []
  for (const { line, take } of verdicts) {
    if (!take) continue
    const outcome = await receive(desk, caller, take)
    if (isRefusal(outcome)) refused.push({ line, words: outcome.words, take: undefined })
  }
  return refused
}

async function judge(
  desk: Desk,
  caller: Caller,
  charts: Map<string, Chart>,
  submission: unknown,
): Promise<Refusal | { words: string; measure: Measure }> {
  const parsed = Submission.safeParse(submission)
  if (!parsed.success || parsed.data.kind !== 'measure') {
    const issue = parsed.error?.issues[0]
    return {
      refused: 'malformed',
      words: `${issue?.path.join('.') ?? 'line'}: ${issue?.message ?? 'no measure'}.`,
    }
  }
  const measure = parsed.data
  const team = await desk.team()
  const now = desk.clock.now()
  const chart = charts.get(measure.athlete) ?? (await desk.charts.read(measure.athlete))
  if (!chart.enrolment) return { refused: 'no-chart', words: `There is no chart of ${measure.athlete}.` }
  const refusal = refusedTwice(chart, measure)
  if (refusal) return refusal
  const decision = answer(chart, measure, { caller, team, shelf: desk.library, now })
  if (isRefusal(decision)) return decision
  charts.set(measure.athlete, withEntries(chart, decision.entries))
  const sides = measure.otherSide === undefined ? '' : `, other side ${measure.otherSide}`
  const words = `${nameOf(team, measure.athlete)}, ${measure.day}: ${measure.measure} ${measure.value}${sides}`
  return { words, measure }
}
