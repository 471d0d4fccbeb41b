import { type Chart, checkInOf, prescriptionOf } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { holdReasons } from '../rules/in-confidence.ts'
import { context, escaped, header, type Message, section } from './blocks.ts'
import { caution } from './prescription.ts'
import { ceilingInWords } from './words.ts'

/** Why today is as it is: what was found, in words, with its source, and where on the ladder that is. */
export function whyMessage(chart: Chart, reader: string, team: Team, now: Instant): Message {
  const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const last = prescriptionOf(chart, today) ?? chart.prescriptions.at(-1)
  const hold = chart.holds.at(-1)
  const name = nameOf(team, chart.athlete)
  if (!last && !hold)
    return {
      text: 'Nothing has been decided yet.',
      blocks: [section(`Nothing has been decided for ${escaped(name)} yet: that begins with a check-in.`)],
    }
  const reasons =
    (hold && (!last || hold.recordedAt > last.recordedAt)
      ? holdReasons(hold, chart, reader, team)
      : last?.because) ?? []
  return {
    text: 'The last decision and its reasons.',
    blocks: [
      header(last ? `${last.day}: ${last.what === 'run' ? 'run' : 'no run'}` : 'Running is on hold'),
      section(reasons.map((one) => `• ${escaped(one.words)} [${escaped(one.source)}]`).join('\n')),
      ...(last ? [section(whereInWords(chart, last))] : []),
      ...answersOf(chart, last?.day ?? today),
      caution(team),
    ],
  }
}

function whereInWords(
  { plan }: Chart,
  { rung, move }: { readonly rung: number; readonly move: string },
): string {
  if (!plan) return 'No plan is signed.'
  const name = plan.ladder.rungs[rung - 1]?.name ?? ''
  return `Rung ${rung} of ${plan.ladder.rungs.length}, ${escaped(name)} (${move}), of "${escaped(plan.ladder.title)}" [${plan.ladder.sources.map((one) => one.key).join(', ')}]. Signed ${ceilingInWords(plan.ceiling)}.`
}

function answersOf(chart: Chart, day: string) {
  const answers = checkInOf(chart, day)
  if (!answers) return []
  const { worstPain, morningPain, swelling } = answers
  return [
    context(`The answers of ${day}: worst pain ${worstPain}, now ${morningPain}, more swollen: ${swelling}.`),
  ]
}
