import { type Chart, openEscalations } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Day } from '../chart/day.ts'
import type { Because } from '../chart/signing.ts'
import { hurtInRun } from './response.ts'
import { effusionRule, gradedOn } from './response-effusion.ts'
import { settingsOf, sourceOf } from './settings.ts'

export const noPlan: Because = practice('no-plan', 'No plan is signed yet.')

/** What takes running away altogether, whatever the ladder says; most severe first. */
export function whatStops(chart: Chart, checkIn: CheckIn): Because | undefined {
  if (openEscalations(chart).length > 0)
    return practice('open-call', 'A call is open: no running until it is closed.')
  const held = heldBySession(chart)
  if (held) return held
  if (chart.holds.length > 0) return practice('hold', 'On hold until a therapist lifts it.')
  if (!chart.plan) return noPlan
  return notCleared(chart, checkIn.day) ?? swollen(chart, checkIn)
}

function notCleared({ clearance, episode }: Chart, today: Day): Because | undefined {
  if (!clearance) return practice('not-cleared', 'No therapist has cleared running yet.')
  if (clearance.state === 'no running')
    return practice('cleared-for-none', 'Cleared for no running at present.')
  if (clearance.until < today)
    return practice('clearance-lapsed', `The clearance lapsed on ${clearance.until}.`)
  const notBefore = episode?.noRunBefore
  if (notBefore && today < notBefore)
    return practice('surgeon', `The surgeon allows no running before ${notBefore}.`)
  return undefined
}

/**
 * Pain in a run that the tissue's rule does not accept at all: no running until a therapist has lifted the hold
 * that this session causes. Read from the session itself, so that striking out the hold lifts nothing. (Sessions
 * under an earlier plan were judged by its rules; their holds stand by themselves.)
 */
export function heldBySession(chart: Chart): Because | undefined {
  const { plan } = chart
  if (!plan || !settingsOf(chart).holdOnPainDuring) return undefined
  for (let i = chart.sessions.length - 1; i >= 0; i -= 1) {
    const session = chart.sessions[i]
    if (!session || session.recordedAt < plan.recordedAt) continue
    if (!hurtInRun(chart, session) || chart.lifted.has(holdOf(session.id))) continue
    return {
      finding: 'hold-after-pain',
      words: `Pain ${session.painDuring} of 10 in the run on ${session.day}: on hold until a therapist lifts it.`,
      source: sourceOf(chart, 'holdOnPainDuring'),
    }
  }
  return undefined
}

/** The id of the hold that a session causes. */
export function holdOf(sessionId: string): string {
  return `hold/${sessionId}`
}

/**
 * A joint that is more swollen, or may be, waits for a clinician that day: an athlete cannot grade an effusion.
 * Once it is graded the grade decides, today and on later days.
 */
function swollen(chart: Chart, checkIn: CheckIn): Because | undefined {
  if (chart.episode?.tissue !== 'joint') return undefined
  const rule = effusionRule(chart, checkIn.day)
  if (rule === 'hold' || rule === 'hold-and-tell')
    return {
      finding: rule === 'hold' ? 'effusion' : 'effusion-again',
      words:
        rule === 'hold'
          ? 'The effusion was graded 2+ or more: no running until it is graded lower.'
          : 'The effusion is 2+ or more for the third visit: no running, and the team is told.',
      source: 'white-soreness-effusion',
    }
  if (checkIn.swelling === 'no' || gradedOn(chart, checkIn.day)) return undefined
  const sure =
    checkIn.swelling === 'yes' ? 'More swollen than yesterday' : 'Perhaps more swollen than yesterday'
  return practice('swelling', `${sure}: no running today, and the therapist grades it.`)
}

function practice(finding: string, words: string): Because {
  return { finding, words, source: 'common-practice' }
}
