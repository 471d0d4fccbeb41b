import type { KnownBlock } from '@slack/types'
import { type Chart, openCalls } from '../chart/chart.ts'
import { type Day, dayAt } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { caseLine } from '../rules/caseload.ts'
import { setsFor, standingOf } from '../rules/criteria.ts'
import { callReasons, holdReasons } from '../rules/in-confidence.ts'
import type { Shelf } from '../rules/shelf.ts'
import { standing } from '../rules/standing.ts'
import { type ButtonSpec, buttons, context, escaped, header, type Modal, screen, section } from './blocks.ts'
import { linesInWords } from './criteria-lines.ts'
import type { At } from './door.ts'
import { lineWithButton } from './pickers.ts'
import { ceilingInWords, reasonsInWords } from './words.ts'

const decisionsShown = 5

/** The chart of one athlete as the therapist works with it: what stands, what was decided and why, what can be done. */
export async function chartScreen({ doorway, person }: At, chart: Chart): Promise<Modal> {
  const { desk } = doorway
  const team = await desk.team()
  const now = desk.clock.now()
  const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const about = { athlete: chart.athlete }
  return screen({ door: 'chart', title: 'Chart', about }, [
    header(nameOf(team, chart.athlete)),
    section(`*${escaped(caseLine(chart, team, now).words)}*\n${episodeInWords(chart)}`),
    section(standsInWords(chart, person.id, team, today)),
    ...toDo(chart),
    header('Last decisions'),
    ...decisions(chart),
    ...criteriaBlocks(chart, desk.library, today),
    header('Last mornings'),
    section(mornings(chart)),
    buttons({ does: 'open-caseload', label: 'Back to the caseload' }),
    context(`${recordOf(chart, team)} The findings are not a diagnosis.`),
  ])
}

function episodeInWords({ episode }: Chart): string {
  if (!episode) return 'No episode is written yet.'
  const { diagnosis, tissue, site, side, onsetDay, surgeryDay, noRunBefore } = episode
  const where = [side === 'none' ? '' : side, site].filter((word) => word !== '').join(' ')
  return [
    `${escaped(diagnosis)} (${tissue})${where ? `, ${escaped(where)}` : ''}, since ${onsetDay}.`,
    surgeryDay ? `Surgery on ${surgeryDay}.` : '',
    noRunBefore ? `No running before ${noRunBefore}.` : '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ')
}

function standsInWords(chart: Chart, reader: string, team: Team, today: Day): string {
  const { plan, clearance } = chart
  const where = standing(chart, today)
  const lines = [
    plan
      ? `*Plan:* ${escaped(plan.ladder.title)}, rung ${where?.rung ?? plan.startRung} of ${plan.ladder.rungs.length}, ${ceilingInWords(plan.ceiling)}.`
      : '*Plan:* none is signed.',
    clearance
      ? `*Clearance:* ${clearance.state}${clearance.ceiling ? `, ${ceilingInWords(clearance.ceiling)}` : ''}, until ${clearance.until}.`
      : '*Clearance:* none.',
    ...chart.holds.map(
      (hold) =>
        `*Hold* since ${hold.recordedAt.slice(0, 10)}: ${escaped(reasonsInWords(holdReasons(hold, chart, reader, team)))}`,
    ),
    ...openCalls(chart).map(
      (call) =>
        `*Open call* (${call.tier}): ${escaped(reasonsInWords(callReasons(call, chart, reader, team)))}`,
    ),
  ]
  return lines.join('\n')
}

function toDo(chart: Chart): KnownBlock[] {
  const value = JSON.stringify({ athlete: chart.athlete })
  const can: ButtonSpec[] = [
    { does: 'open-clearance', label: 'Clearance', value },
    chart.holds.length > 0
      ? { does: 'open-lift', label: 'Lift a hold', value }
      : { does: 'open-hold', label: 'Hold running', value },
    { does: 'open-measure', label: 'Record a measure', value },
    { does: 'open-exercise', label: 'Log exercises', value },
    { does: 'open-plan', label: 'Sign a plan', value },
    { does: 'open-case', label: 'Episode', value },
    { does: 'open-strike', label: 'Strike out an entry', value },
    { does: 'show-pictures', label: 'Pictures', value },
  ]
  return [buttons(...can)]
}

function decisions(chart: Chart): KnownBlock[] {
  const last = chart.prescriptions.slice(-decisionsShown).toReversed()
  if (last.length === 0) return [section('None yet.')]
  return last.map((one) =>
    section(
      `*${one.day}: ${one.what}*, rung ${one.rung} (${one.move}). ${escaped(reasonsInWords(one.because))}`,
    ),
  )
}

function criteriaBlocks(chart: Chart, shelf: Shelf, today: Day): KnownBlock[] {
  return setsFor(chart, shelf).flatMap((set) => {
    const id = `${set.id}@${set.version}`
    const signed = chart.criteriaSigned.findLast((one) => one.set === id)
    const value = JSON.stringify({ athlete: chart.athlete, set: id })
    const state = signed
      ? `signed on ${signed.recordedAt.slice(0, 10)}${signed.against ? ' against open lines' : ''}`
      : 'not signed'
    return [
      header('Criteria'),
      lineWithButton(`*${escaped(set.title)}*: ${state}`, { does: 'open-criteria', label: 'Sign', value }),
      section(linesInWords(standingOf(set, chart, shelf, today)) || 'No line counts for this episode.'),
    ]
  })
}

function mornings(chart: Chart): string {
  const lines = chart.checkIns
    .slice(-7)
    .toReversed()
    .map((c) => `${c.day}: worst pain ${c.worstPain}, morning ${c.morningPain}, more swollen: ${c.swelling}`)
  return lines.join('\n') || 'None yet.'
}

function recordOf(chart: Chart, team: Team): string {
  const last = chart.entries.at(-1)
  return last
    ? `${chart.entries.length} entries, the last by ${escaped(nameOf(team, last.author))}.`
    : 'No entries.'
}
