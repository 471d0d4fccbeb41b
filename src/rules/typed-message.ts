import { type Chart, withEntries } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import type { TypedMessage } from '../chart/typed-message.ts'
import { takeBack } from './check-in.ts'
import { both, type Decision, nothing, type Refusal, signed } from './decision.ts'
import { onFlags } from './flagged.ts'
import type { Submission } from './submissions.ts'
import { rings, type Triage, triageHeard } from './triage.ts'
import { hear, type WordList } from './words.ts'

/** What a note may hold; the platform lets people type more. */
const mostKept = 3000

/**
 * A plain message to the bot. What the word list hears in it leads to what the same words in a check-in lead to; what
 * it does not know is shown to the therapist all the same, without ringing, and the athlete is told so (D23). The id
 * comes from the message, so one that is delivered again is the same one.
 */
export function onTypedMessage(
  chart: Chart,
  submitted: Extract<Submission, { kind: 'typed-message' }>,
  by: string,
  { team, words, now }: { readonly team: Team; readonly words: WordList; readonly now: Instant },
): Decision | Refusal {
  const { enrolment, athlete } = chart
  const { emergencyNumber } = team.clinic
  if (!enrolment)
    return {
      refused: 'not-enrolled',
      words: `You are not enrolled yet, and nobody has read this. Please ask your therapist; in an emergency call ${emergencyNumber}.`,
    }
  const id = `typed-message/${athlete}/${submitted.ts}`
  if (chart.ids.has(id)) return { refused: 'already-recorded', words: 'This message has been answered.' }
  const day = dayAt(now, enrolment.timeZone)
  const heard = hear(submitted.words, words)
  const said = submitted.words.trim() !== ''
  const typed: TypedMessage = {
    ...signed(athlete, id, now, by),
    kind: 'typed-message',
    day,
    ...(said ? { note: kept(submitted.words, words) } : {}),
    ...(heard.length > 0 ? { heard: [...heard] } : {}),
  }
  const found = triageHeard(chart, heard, day, team.clinic)
  const after = withEntries(chart, [typed])
  const flagged = onFlags(after, id, { ...found, said }, team, now)
  return both(
    { entries: [typed], notices: [] },
    flagged,
    answeredByFlags(found) ? nothing : reply(typed, now),
    takeBack(after, flagged, team, now),
  )
}

/** A call tells the athlete what to do now; words in confidence have their own fixed answer. */
function answeredByFlags({ flags, support }: Triage): boolean {
  return support !== undefined || flags.some((flag) => rings(flag.tier))
}

/** It is wanted now or not at all: nobody should wait a night to hear that nobody was told. */
function reply({ id, athlete }: TypedMessage, now: Instant): Decision {
  const notice = { key: `${id}/reply`, kind: 'reply' as const, to: { person: athlete }, athlete, about: id }
  return { entries: [], notices: [{ ...notice, queuedAt: now }] }
}

/** The whole message; of one that is too long to keep, the sentences in which something is heard, or else its beginning. */
function kept(text: string, words: WordList): string {
  if (text.length <= mostKept) return text
  const sentences = text.split(/(?<=[.!?\n])/).filter((sentence) => hear(sentence, words).length > 0)
  return (sentences.length > 0 ? sentences.map((one) => one.trim()).join(' … ') : text).slice(0, mostKept)
}
