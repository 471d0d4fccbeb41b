import type { LineStanding } from './criteria.ts'
import type { Review } from './review.ts'
import type { Week } from './review-week.ts'

/** A part of the review with its lines, in the order in which a therapist reads it. */
export type ReviewPart = { readonly title: string; readonly lines: readonly string[] }

/** The review in words; what is missing is said as missing, never left out. */
export function reviewInWords(review: Review): readonly ReviewPart[] {
  const { week, before, rung } = review
  return [
    { title: 'Adherence', lines: adherence(week) },
    { title: 'Load', lines: [loadWords(week, before), curveWords(review)] },
    { title: 'Symptoms', lines: symptoms(week, before) },
    { title: 'Criteria still open', lines: review.criteria.flatMap(openLines) },
    {
      title: 'Next',
      lines: [
        rung ? `On rung ${rung.rung} of ${rung.of} (${rung.name}).` : 'No plan is signed.',
        `The rules propose: ${review.next.move}.`,
        ...review.next.because.map(({ words, source }) => `${words} [${source}]`),
      ],
    },
    {
      title: 'Will lapse',
      lines:
        review.lapses.length === 0
          ? ['Nothing in the next two weeks.']
          : review.lapses.map(({ what, on }) => `${what}: after ${on}`),
    },
  ]
}

function adherence({ checkIns, runs, exerciseDays }: Week): string[] {
  const beside = [
    count(runs.skipped, 'said not to be run'),
    count(runs.unlogged, 'not logged'),
    count(runs.unprescribed, 'not prescribed'),
    count(runs.aboveCeiling, 'above the ceiling'),
  ].filter((words) => words !== '')
  return [
    `Check-ins: ${checkIns.answered} answered of 7, ${checkIns.missed} missed.`,
    `Runs: ${runs.done} done of ${runs.prescribed} prescribed${beside.length > 0 ? `; ${beside.join(', ')}` : ''}.`,
    `Exercises on ${exerciseDays} days.`,
  ]
}

function count(many: number, words: string): string {
  return many === 0 ? '' : `${many} ${words}`
}

function loadWords(week: Week, before: Week): string {
  return `${rounded(week.runMinutes)} min of running (${rounded(before.runMinutes)} the week before), load ${rounded(week.loadAu)} (${rounded(before.loadAu)}) as effort times minutes [foster-2001].`
}

function curveWords({ curve }: Review): string {
  if (!curve) return 'Response curve: no session to go on.'
  if (curve.verdict === 'too-little') return `Response curve: ${curve.words}`
  const { best, low, high } = curve.highestTolerated
  return `Response curve over ${curve.sessions} sessions: tolerated up to ${rounded(best)} body-weight minutes (${rounded(low)} to ${rounded(high)}). ${curve.words} It opens nothing.`
}

function symptoms(week: Week, before: Week): string[] {
  const { responses } = week
  return [
    `Worst pain ${said(week.worstPain)} (${said(before.worstPain)}), worst morning ${said(week.worstMorning)} (${said(before.worstMorning)}), ${week.swollenMornings} mornings with swelling or not sure.`,
    `Runs that settled ${responses.settled}, provoked ${responses.provoked}, flared ${responses.flared}, not known ${responses.unknown}.`,
  ]
}

function openLines({ title, lines }: Review['criteria'][number]): string[] {
  const open = lines.filter(({ status }) => status !== 'met')
  if (open.length === 0) return [`${title}: all met; a therapist signs.`]
  return [`${title}:`, ...open.map((line) => `  ${lineInWords(line)}`)]
}

/** "missing: quadriceps symmetry at least 90 % [delaware-oslo, read]". */
export function lineInWords({ line, status, value, day }: LineStanding): string {
  const found = value === undefined ? '' : ` (${rounded(value)} on ${day})`
  const beside = line.gates ? '' : ', shown only'
  return `${status}: ${line.words}${found} [${line.source}, ${line.label}${beside}]`
}

function said(value: number | undefined): string {
  return value === undefined ? 'not answered' : String(value)
}

function rounded(value: number): string {
  return String(Number(value.toFixed(1)))
}
