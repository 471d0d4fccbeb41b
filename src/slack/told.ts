import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Entry, EntryOf } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { answerBy, standingRequest } from '../rules/amend-request.ts'
import { hurtIn } from '../rules/exercise.ts'
import { silentDays } from '../rules/missed.ts'
import { isSpoken, wordsFor } from '../rules/note.ts'
import { redFlags } from '../rules/red-flags.ts'
import { remarks } from '../rules/session.ts'
import { triage, triageHeard } from '../rules/triage.ts'
import { reasonsFor } from '../rules/why.ts'
import { buttons, context, escaped, type Message, quote, section } from './blocks.ts'
import { caution } from './prescription.ts'
import { ceilingInWords, reasonsInWords } from './words.ts'

/** What an athlete is told of a therapist's entry. */
export function toldMessage(chart: Chart, entry: Entry | undefined, team: Team): Message {
  return {
    text: 'Your care team has written something for you.',
    blocks: [section(escaped(athleteWords(chart, entry, team))), ...mayDisagree(entry), caution(team)],
  }
}

/** A refusal to correct the record can be disagreed with from where it is read. */
function mayDisagree(entry: Entry | undefined): KnownBlock[] {
  if (entry?.kind !== 'amendment-request-answered' || entry.outcome !== 'denied') return []
  const value = JSON.stringify({ athlete: entry.athlete, request: entry.request })
  return [buttons({ does: 'open-disagree', label: 'I disagree', value })]
}

function athleteWords(chart: Chart, entry: Entry | undefined, team: Team): string {
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
    case 'amendment-request': {
      const by = dueOf(chart, entry.id, team)
      return `Your request to correct the record is written down. Your therapist must answer by ${by}; the date stands on your Home.`
    }
    case 'amendment-request-answered':
      return `${nameOf(team, entry.author)} answered your request to correct the record: ${entry.outcome === 'denied' ? `not changed (${entry.ground}). You may state that you disagree; it stays with the record` : 'changed'}. ${entry.words}`
    case 'amendment-request-extended':
      return `${nameOf(team, entry.author)} needs more time for your request to correct the record: ${entry.words} An answer is now due by ${dueOf(chart, entry.request, team)}.`
    default:
      return 'Please ask your therapist.'
  }
}

/** What the treating therapist should see without being called. */
export function noteMessage(chart: Chart, entry: Entry | undefined, to: string, team: Team): Message {
  const who = escaped(nameOf(team, chart.athlete))
  const said = entry && isSpoken(entry) ? wordsFor(entry, to, team) : undefined
  return {
    text: 'A note about an athlete of yours.',
    blocks: [
      section(`*${who}*: ${escaped(therapistWords(chart, entry, to, team))}`),
      ...(said && entry ? [context(saidBy(entry, team)), quote(said)] : []),
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
    case 'typed-message':
      return `typed a message on ${entry.day}. ${heardInWords(chart, entry, to, team)}`
    case 'exercise-done': {
      const hurt = hurtIn(chart, entry).map((one) => `pain ${one.pain} of 10 in ${one.exercise}`)
      const all = [...hurt, heardInWords(chart, entry, to, team)].filter((remark) => remark !== '')
      return `the exercises of ${entry.day}, logged by ${nameOf(team, entry.author)}: ${all.join('; ') || 'a note'}.`
    }
    case 'amendment-request':
      return `asks for a correction of the record: ${entry.words} Please answer by ${dueOf(chart, entry.id, team)}.`
    case 'amendment-request-reminded':
      return entry.why === 'near'
        ? `asked for a correction of the record, and an answer is due by ${entry.answerBy}.`
        : `asked for a correction of the record. An answer was due by ${entry.answerBy} and is missing: please see to it today (${nameOf(team, chart.enrolment?.therapist ?? '')} treats the athlete).`
    case 'disagreement-stated':
      return `disagrees with the refusal to correct the record: ${entry.words}`
    default:
      return 'please look at the chart.'
  }
}

function dueOf(chart: Chart, request: string, team: Team): string {
  const found = standingRequest(chart, request)
  return found ? answerBy(found, chart, team) : 'its date'
}

/** A note of a session or of exercises may be a colleague's. */
export function saidBy({ author, athlete }: Entry, team: Team): string {
  return author === athlete
    ? "In the athlete's own words:"
    : `In the words of ${escaped(nameOf(team, author))}:`
}

function heardInWords(
  chart: Chart,
  entry: EntryOf<'typed-message' | 'exercise-done'>,
  to: string,
  team: Team,
) {
  const { because, support } = triageHeard(chart, entry.heard ?? [], entry.day, team.clinic)
  const confided = to === team.clinic.support.licensed && support
  return reasonsInWords(confided ? support.because : because)
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
