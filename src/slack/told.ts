import type { Chart } from '../chart/chart.ts'
import type { Entry } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { remarks } from '../rules/session.ts'
import { reasonsFor } from '../rules/why.ts'
import { escaped, type Message, section } from './blocks.ts'
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
      if (entry.author === 'sanderling')
        return 'It hurt during the run, so your running is on hold. Please do not run until your therapist has lifted it.'
      return `${nameOf(team, entry.author)} put your running on hold. Please do not run until it is lifted.`
    case 'hold-lifted':
      return `${nameOf(team, entry.author)} lifted the hold. Your next check-in decides about running.`
    default:
      return 'Please ask your therapist.'
  }
}

/** What the treating therapist should see without being called. */
export function noteMessage(chart: Chart, entry: Entry | undefined, team: Team): Message {
  const who = escaped(nameOf(team, chart.athlete))
  return {
    text: 'A note about an athlete of yours.',
    blocks: [section(`*${who}*: ${escaped(therapistWords(chart, entry))}`)],
  }
}

function therapistWords(chart: Chart, entry: Entry | undefined): string {
  switch (entry?.kind) {
    case 'check-in-missed':
      return entry.asked
        ? `no check-in on ${entry.day}. This is not read as fine: there is no prescription and no step up.`
        : `the check-in of ${entry.day} could not be asked for. There is no prescription.`
    case 'session-done':
      return `the run of ${entry.day}: ${remarks(chart, entry).join('; ') || 'as prescribed'}.`
    case 'check-in':
      return reasonsInWords(reasonsFor(chart, entry)) || `the check-in of ${entry.day}.`
    default:
      return 'please look at the chart.'
  }
}
