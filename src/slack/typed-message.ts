import type { AllMiddlewareArgs, SlackEventMiddlewareArgs } from '@slack/bolt'
import { type Chart, checkInOf } from '../chart/chart.ts'
import type { Entry } from '../chart/entries.ts'
import type { Person, Team } from '../chart/roster.ts'
import { buttons, escaped, type Message, section } from './blocks.ts'
import { type Doorway, handIn, personAt } from './door.ts'
import { holdsAck } from './kept-first.ts'
import type { CommandName } from './manifest.ts'
import { onlyYou } from './only-you.ts'

type Arrived = SlackEventMiddlewareArgs<'message'> & AllMiddlewareArgs
type Typed = { readonly user: string; readonly text: string; readonly ts: string }

/**
 * Plain text in the direct messages with the bot. An athlete's words are screened like the note of a check-in, and the
 * delivery is acknowledged only when they are written down: what was not kept is delivered again. Everybody else is
 * told which commands there are.
 */
export function onTypedMessage(doorway: Doorway) {
  return async ({ event, context, client }: Arrived): Promise<void> => {
    const typed = typedIn(event as unknown as Record<string, unknown>)
    if (!typed) return
    const say = (words: string) => client.chat.postMessage({ channel: typed.user, text: onlyYou(words).text })
    const again = context.retryNum !== undefined
    const ack = holdsAck(context)
    try {
      const person = await personAt(doorway, typed.user, 'admit')
      if ('refused' in person) {
        if (!again) await say(person.words)
        return
      }
      if (!person.roles.includes('athlete')) {
        if (!again) await say(commandsFor(person, doorway))
        return
      }
      const { text: words, ts } = typed
      const outcome = await handIn(doorway, person, {
        kind: 'typed-message',
        athlete: person.id,
        ts,
        words: words.slice(0, 40_000),
      })
      if (!('refused' in outcome) || outcome.refused === 'already-recorded') return
      const { emergencyNumber, lastResort } = doorway.desk.clinic
      if (!again)
        await say(
          `${outcome.words} Your message was not read. Ring ${lastResort.phone}, in an emergency ${emergencyNumber}.`,
        )
      if (outcome.refused === 'not-kept' || outcome.refused === 'busy') ack.refuse()
    } catch (error) {
      ack.refuse()
      throw error
    }
  }
}

/** What the bot does with a message that nobody is called about: the truth, and the ways that lead to a human. */
export function replyMessage(chart: Chart, entry: Entry | undefined, team: Team): Message {
  const { emergencyNumber, lastResort } = team.clinic
  const passedOn = entry?.kind === 'typed-message' && entry.note !== undefined
  const day = entry && 'day' in entry ? entry.day : ''
  const checkedIn = checkInOf(chart, day) !== undefined
  const ring = `If it cannot wait, ring ${escaped(lastResort.phone)}. *In an emergency call ${escaped(emergencyNumber)}.*`
  return {
    text: 'An answer to your message.',
    blocks: [
      section(
        passedOn
          ? 'Your therapist gets a note of this message and reads it when next at work. *Nobody is being called about it.*'
          : '*Nobody has read this, and it was passed on to nobody.* I read words only.',
      ),
      section(
        `${checkedIn ? 'You have checked in today; the next form comes tomorrow morning.' : 'What your therapist should know belongs in the check-in, under "Anything that worries you".'} ${ring}`,
      ),
      ...(checkedIn ? [] : [buttons({ does: 'open-check-in', label: 'Check in', main: true })]),
    ],
  }
}

/**
 * What somebody typed; undefined for everything else that comes as a message: edits, deletions, what bots and the
 * platform itself write, and whatever was said outside the direct messages.
 */
function typedIn(event: Record<string, unknown>): Typed | undefined {
  const { channel_type, subtype, bot_id, user, text, ts } = event
  if (channel_type !== 'im' || bot_id !== undefined) return undefined
  if (subtype !== undefined && subtype !== 'file_share' && subtype !== 'me_message') return undefined
  if (typeof user !== 'string' || typeof ts !== 'string') return undefined
  return { user, text: typeof text === 'string' ? unescaped(text) : '', ts }
}

/** As it was typed: the platform escapes these three and no others. */
function unescaped(text: string): string {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&')
}

const names: Record<Person['roles'][number], readonly CommandName[]> = {
  athlete: [],
  coach: ['/cleared'],
  'strength-coach': ['/cleared', '/session'],
  therapist: ['/chart', '/enrol', '/cover', '/why'],
  'clinic-lead': ['/cover'],
}

function commandsFor({ roles }: Person, { typed }: Doorway): string {
  const mine = [...new Set(roles.flatMap((role) => names[role]))].map(typed)
  return `I read no messages, and this one was passed on to nobody. What I answer: ${mine.join(', ')}, the buttons under my messages, and Home.`
}
