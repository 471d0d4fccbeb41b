import type { AllMiddlewareArgs, SlackEventMiddlewareArgs } from '@slack/bolt'
import type { HomeView, KnownBlock } from '@slack/types'
import { WebAPIPlatformError } from '@slack/web-api'
import { type Chart, checkInOf, prescriptionOf } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { clearedLines } from '../desk/desk.ts'
import { caseload } from '../rules/caseload.ts'
import { clearedLine } from '../rules/cleared.ts'
import { may } from '../rules/permissions.ts'
import { standing } from '../rules/standing.ts'
import { buttons, escaped, header, section } from './blocks.ts'
import { caseRow, chartsFor } from './caseload.ts'
import { lineInWords } from './cleared.ts'
import { missingBlock } from './clinic.ts'
import { type At, callerNow, type Doorway, personAt } from './door.ts'
import { caution } from './prescription.ts'
import { doseInWords } from './words.ts'

const mostLines = 40

/** Publishes somebody's Home when they open it, never eagerly: the platform allows a hundred a minute. */
export function onHome(doorway: Doorway) {
  return async ({
    event,
    client,
  }: SlackEventMiddlewareArgs<'app_home_opened'> & AllMiddlewareArgs): Promise<void> => {
    if (event.tab !== 'home') return
    const person = await personAt(doorway, event.user)
    const blocks =
      'refused' in person ? [section(escaped(person.words))] : await homeBlocks({ doorway, person })
    // The platform sends the hash of what is shown now; its types leave it out.
    const hash = (event.view as { readonly hash?: string } | undefined)?.hash
    const view: HomeView = { type: 'home', blocks: blocks.slice(0, 100) }
    try {
      await client.views.publish({
        user_id: event.user,
        view,
        ...(hash ? { hash } : {}),
      })
    } catch (error) {
      // Somebody published in between, from what is newer than this.
      if (!(error instanceof WebAPIPlatformError) || error.data.error !== 'hash_conflict') throw error
    }
  }
}

async function homeBlocks(at: At): Promise<KnownBlock[]> {
  const { roles } = at.person
  const parts: KnownBlock[][] = []
  if (roles.includes('clinic-lead')) parts.push(await leadHome(at))
  if (roles.includes('therapist')) parts.push(await therapistHome(at))
  if (roles.includes('athlete')) parts.push(await athleteHome(at))
  if (roles.includes('coach') || roles.includes('strength-coach')) parts.push(await coachHome(at))
  return parts.flat()
}

async function athleteHome({ doorway, person }: At): Promise<KnownBlock[]> {
  const { desk } = doorway
  const team = await desk.team()
  const chart = await desk.charts.read(person.id)
  const now = desk.clock.now()
  if (!chart.enrolment) return [section('You are not enrolled yet. Please ask your therapist.')]
  const { therapist, cover } = chart.enrolment
  const covered = cover ? ` When away: ${escaped(nameOf(team, cover))}.` : ''
  return [
    header('Today'),
    section(todayInWords(chart, now)),
    buttons(
      { does: 'open-check-in', label: 'Check in', main: true },
      { does: 'open-session', label: 'Log a run' },
    ),
    header('Your ladder'),
    section(ladderInWords(chart, now)),
    header('Your next check-in'),
    section(nextInWords(chart, now)),
    header('Who treats you'),
    section(`${escaped(nameOf(team, therapist))}.${covered}`),
    header('What your coach can see'),
    section(coachSees(chart, team, now)),
    header('Your record'),
    section('Everything that is written about you, as a file that only you get.'),
    buttons({ does: 'my-record', label: 'My record as a file' }),
    caution(team),
  ]
}

function todayInWords(chart: Chart, now: Instant): string {
  const day = dayAt(now, chart.enrolment?.timeZone ?? 'UTC')
  if (chart.holds.length > 0) return 'No running: on hold until your therapist lifts it.'
  const prescription = prescriptionOf(chart, day)
  if (!prescription) return 'Nothing is prescribed yet today. Check in first.'
  if (!prescription.dose) return 'No run today.'
  return doseInWords(prescription.dose)
    .map((line) => `• ${escaped(line)}`)
    .join('\n')
}

function ladderInWords(chart: Chart, now: Instant): string {
  const { plan } = chart
  const where = standing(chart, dayAt(now, chart.enrolment?.timeZone ?? 'UTC'))
  if (!plan || !where) return 'No plan is signed yet.'
  const rung = plan.ladder.rungs[where.rung - 1]
  const runs = chart.sessions.length
  return `Rung ${where.rung} of ${plan.ladder.rungs.length}${rung ? `, ${escaped(rung.name)}, at ${rung.bodyWeightPct} % of body weight` : ''}. ${runs} run${runs === 1 ? '' : 's'} logged so far, ${where.runsIn7Days} in the last seven days.`
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

async function coachHome({ doorway, person }: At): Promise<KnownBlock[]> {
  const team = await doorway.desk.team()
  const caller = await callerNow(doorway, person)
  const lines = await clearedLines(doorway.desk, team, (chart) => may(caller, 'see-cleared', chart))
  return [
    header('Who runs today'),
    ...(lines.length > 0
      ? lines.slice(0, mostLines).map((line) => section(lineInWords(line)))
      : [section('No athlete shares a clearance with you. Ask the treating therapist.')]),
  ]
}

async function therapistHome(at: At): Promise<KnownBlock[]> {
  const { desk } = at.doorway
  const team = await desk.team()
  const lines = caseload(await chartsFor(at, 'see-chart'), team, desk.clock.now())
  return [
    header('Your caseload'),
    ...lines.slice(0, mostLines).map((line) => caseRow(line, team)),
    buttons({ does: 'open-caseload', label: 'Whole caseload' }),
  ]
}

async function leadHome({ doorway }: At): Promise<KnownBlock[]> {
  return [
    header('The clinic'),
    missingBlock(await doorway.desk.team()),
    buttons({ does: 'open-clinic', label: 'People, roles, settings', value: '{}', main: true }),
  ]
}
