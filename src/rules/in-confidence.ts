import type { Chart, Escalation } from '../chart/chart.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'

const secret: Because = {
  finding: 'in-confidence',
  words: 'In confidence: the licensed person knows.',
  source: 'common-practice',
}

/** Why a call rings, for a reader: what was said in confidence is for the licensed person and the athlete only. */
export function callReasons(e: Escalation, chart: Chart, reader: string, team: Team): readonly Because[] {
  const about = chart.escalations.find((one) => one.id === e.opened.about)
  const kept = e.concern === 'support' || about?.concern === 'support'
  return kept && !knows(chart, reader, team) ? [secret] : e.because
}

/** Why running is on hold, for a reader. */
export function holdReasons(
  hold: EntryOf<'hold'>,
  chart: Chart,
  reader: string,
  team: Team,
): readonly Because[] {
  const call = chart.escalations.find((one) => one.id === hold.about)
  return call?.concern === 'support' && !knows(chart, reader, team) ? [secret] : hold.because
}

function knows(chart: Chart, reader: string, team: Team): boolean {
  return reader === chart.athlete || reader === team.clinic.support.licensed
}
