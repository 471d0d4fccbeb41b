import type { KnownBlock } from '@slack/types'
import { type Chart, checkInOf, prescriptionOf, sessionOf } from '../chart/chart.ts'
import { type Day, dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { clearedLine } from '../rules/cleared.ts'
import { standing } from '../rules/standing.ts'
import { ownRequestBlocks } from './ask-correction.ts'
import { buttons, escaped, header, section } from './blocks.ts'
import { lineInWords } from './cleared.ts'
import type { At } from './door.ts'
import { caution } from './prescription.ts'
import { doseInWords } from './words.ts'

/** Rungs that are told one by one; before them it is only said how many there were. */
const mostRungs = 6

/** The athlete's own Home: today, the ladder so far in words and as a picture, and everything that is theirs to know. */
export async function athleteHome({ doorway, person }: At, picture?: KnownBlock): Promise<KnownBlock[]> {
  const { desk } = doorway
  const team = await desk.team()
  const chart = await desk.charts.read(person.id)
  const now = desk.clock.now()
  if (!chart.enrolment) return [section('You are not enrolled yet. Please ask your therapist.')]
  const { therapist, cover } = chart.enrolment
  const covered = cover ? ` When away: ${escaped(nameOf(team, cover))}.` : ''
  const value = JSON.stringify({ athlete: chart.athlete })
  return [
    header('Today'),
    section(todayInWords(chart, now)),
    buttons(
      { does: 'open-check-in', label: 'Check in', main: true },
      { does: 'open-session', label: 'Log a run' },
      { does: 'open-exercise', label: 'Log exercises', value },
    ),
    header('Your ladder'),
    section(ladderInWords(chart, now)),
    ...(picture ? [picture] : []),
    header('Your next check-in'),
    section(nextInWords(chart, now)),
    header('Who treats you'),
    section(`${escaped(nameOf(team, therapist))}.${covered}`),
    header('What your coach can see'),
    section(coachSees(chart, team, now)),
    header('Your record'),
    section('Everything that is written about you, as a file that only you get.'),
    ...ownRequestBlocks(chart, team),
    buttons(
      { does: 'my-record', label: 'My record as a file' },
      { does: 'open-ask-correction', label: 'Ask for a correction' },
    ),
    caution(team),
  ]
}

function todayInWords(chart: Chart, now: Instant): string {
  const day = dayAt(now, chart.enrolment?.timeZone ?? 'UTC')
  if (chart.holds.length > 0) return 'No running: on hold until your therapist lifts it.'
  const prescription = prescriptionOf(chart, day)
  if (!prescription) return 'Nothing is prescribed yet today. Check in first.'
  if (sessionOf(chart, day)) return "Today's run is logged."
  if (!prescription.dose)
    return prescription.what === 'exercise' ? 'No run today: exercises.' : 'No run today.'
  return doseInWords(prescription.dose)
    .map((line) => `• ${escaped(line)}`)
    .join('\n')
}

/** Where the athlete stands, what is still asked of this rung, and the way so far. */
export function ladderInWords(chart: Chart, now: Instant): string {
  const { plan } = chart
  const where = standing(chart, dayAt(now, chart.enrolment?.timeZone ?? 'UTC'))
  if (!plan || !where) return 'No plan is signed yet.'
  const { rungs } = plan.ladder
  const rung = rungs[where.rung - 1]
  const runs = chart.sessions.length
  const asked = rung ? ` ${where.timesDone} of the ${rung.sessions.low} settled runs that it asks for.` : ''
  return [
    `Rung ${where.rung} of ${rungs.length}${rung ? `, ${escaped(rung.name)}, at ${rung.bodyWeightPct} % of body weight` : ''}.${asked} ${runs} run${runs === 1 ? '' : 's'} logged so far, ${where.runsIn7Days} in the last seven days.`,
    ...wayInWords(chart),
  ].join('\n')
}

/** Each stay on a rung under the signed plan: since when, how many runs. */
function wayInWords({ plan, sessions }: Chart): string[] {
  const runs = sessions.filter((session) => plan && session.recordedAt >= plan.recordedAt)
  const stays: { rung: number; from: Day; runs: number }[] = []
  for (const { rung, day } of runs) {
    const last = stays.at(-1)
    if (last?.rung === rung) last.runs += 1
    else stays.push({ rung, from: day, runs: 1 })
  }
  if (stays.length === 0) return []
  const shown = stays.slice(-mostRungs)
  const before = stays.length - shown.length
  const words = shown.map(
    (stay) => `rung ${stay.rung} from ${stay.from} (${stay.runs} run${stay.runs === 1 ? '' : 's'})`,
  )
  return [`So far: ${before > 0 ? `${before} earlier; ` : ''}${words.join(', ')}.`]
}

function nextInWords(chart: Chart, now: Instant): string {
  const { enrolment } = chart
  if (!enrolment) return ''
  const today = dayAt(now, enrolment.timeZone)
  const asked = chart.prompts.has(today) && !checkInOf(chart, today) && !chart.missed.has(today)
  return asked
    ? 'Waiting for you now.'
    : `At ${enrolment.promptAt} (${escaped(enrolment.timeZone)}), every morning.`
}

function coachSees(chart: Chart, team: Team, now: Instant): string {
  const line = clearedLine(chart, team, now)
  if (!line || chart.enrolment?.coaches.length === 0) return 'Nothing: you share with no coach.'
  const coaches = chart.enrolment?.coaches.map((coach) => nameOf(team, coach)).join(', ') ?? ''
  return `${escaped(coaches)} and the coaches' channel read exactly this:\n${lineInWords(line)}`
}
