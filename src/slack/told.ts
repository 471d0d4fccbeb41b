import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Entry } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { silentDays } from '../rules/missed.ts'
import { wordsFor } from '../rules/note.ts'
import { redFlags } from '../rules/red-flags.ts'
import { remarks } from '../rules/session.ts'
import { triage, triageHeard } from '../rules/triage.ts'
import { reasonsFor } from '../rules/why.ts'
import { context, escaped, type Message, quote, section } from './blocks.ts'
import { caution } from './prescription.ts'
import { ceilingInWords, reasonsInWords } from './words.ts'

/** What an athlete is told of a therapist's entry. */
export function toldMessage(entry: Entry | undefined, team: Team): Message {
  return {
    text: 'Your care team has written something for you.',
    blocks: [section(escaped(athleteWords(entry, team))), caution(team)],
  }
}

function athleteWords(entry: Entry | undefined, team: Team): string {
  switch (entry?.kind) {
    case 'enrolment':
      return `Welcome. ${nameOf(team, entry.therapist)} treats you; from tomorrow I ask you every morning at ${entry.promptAt}. What you answer is seen by your therapist. Coaches see only whether you are cleared and at what load${entry.consentToCoach ? '.' : ', and you have not agreed to share even that.'}`
    case 'plan-signed':
      return `${nameOf(team, entry.author)} signed your plan: ${entry.ladder.title}, starting on rung ${entry.startRung} of ${entry.ladder.rungs.length}, ${ceilingInWords(entry.ceiling)}.`
    case 'clearance':
      return `${nameOf(team, entry.author)} cleared you for ${entry.state}${entry.ceiling ? `, ${ceilingInWords(entry.ceiling)}` : ''}, until ${entry.until}.`
    case 'clearance-lapsed':
      return 'Your clearance has run out. Please do not run until your therapist has looked at it.'
    case 'hold':
      return entry.author === 'sanderling'
        ? `Your running is on hold: ${entry.because.map((reason) => toAthlete(reason.finding) || reason.words).join(' ')} Please do not run until a therapist lifts it.`
        : `${nameOf(team, entry.author)} put your running on hold. Please do not run until it is lifted.`
    case 'hold-lifted':
      return `${nameOf(team, entry.author)} lifted the hold. Your next check-in decides about running.`
    case 'amendment-request-answered':
      return `${nameOf(team, entry.author)} answered your request to correct the record: ${entry.outcome === 'denied' ? `not changed (${entry.ground}). You may state that you disagree; it stays with the record` : 'changed'}. ${entry.words}`
    case 'amendment-request-extended':
      return `${nameOf(team, entry.author)} needs more time for your request to correct the record: ${entry.words}`
    default:
      return 'Please ask your therapist.'
  }
}

/** What the treating therapist should see without being called. */
export function noteMessage(chart: Chart, entry: Entry | undefined, to: string, team: Team): Message {
  const who = escaped(nameOf(team, chart.athlete))
  const said = entry && 'note' in entry && entry.kind !== 'measure' ? wordsFor(entry, to, team) : undefined
  return {
    text: 'A note about an athlete of yours.',
    blocks: [
      section(`*${who}*: ${escaped(therapistWords(chart, entry, to, team))}`),
      ...(said ? [context("In the athlete's own words:"), quote(said)] : []),
    ],
  }
}

function therapistWords(chart: Chart, entry: Entry | undefined, to: string, team: Team): string {
  switch (entry?.kind) {
    case 'check-in-missed':
      return entry.asked
        ? `${silentDays(chart, entry.day)} day(s) without an answer: no check-in on ${entry.day}. This is not read as fine: there is no prescription and no step up.`
        : `the check-in of ${entry.day} could not be asked for. There is no prescription.`
    case 'session-done': {
      const heard = reasonsInWords(triageHeard(chart, entry.heard ?? [], entry.day, team.clinic).because)
      const all = [...remarks(chart, entry), heard].filter((remark) => remark !== '')
      return `the run of ${entry.day}: ${all.join('; ') || 'a note of the athlete'}.`
    }
    case 'check-in':
      return checkInWords(chart, entry, to, team)
    case 'typed-message': {
      const { because, support } = triageHeard(chart, entry.heard ?? [], entry.day, team.clinic)
      const confided = to === team.clinic.support.licensed && support
      return `typed a message on ${entry.day}. ${reasonsInWords(confided ? support.because : because)}`
    }
    case 'amendment-request':
      return `asks for a correction of the record: ${entry.words} Please answer; the law sets a date.`
    case 'disagreement-stated':
      return `disagrees with the refusal to correct the record: ${entry.words}`
    default:
      return 'please look at the chart.'
  }
}

/** To the licensed person what was said in confidence, to everybody else what was found about the body. */
function checkInWords(chart: Chart, checkIn: CheckIn, to: string, team: Team): string {
  const { support } = triage(chart, checkIn, team.clinic)
  if (to === team.clinic.support.licensed && support) return reasonsInWords(support.because)
  return reasonsInWords(reasonsFor(chart, checkIn, team)) || `the check-in of ${checkIn.day}.`
}

function toAthlete(finding: string): string {
  return redFlags.find((flag) => flag.finding === finding)?.toAthlete ?? ''
}
