import type { Acknowledgement } from './deliveries.ts'
import type { Answer } from './form-values.ts'
import { showReply } from './late-replies.ts'
import type { Message } from './ledger.ts'
import { type Outcome, outcomeOf } from './outcomes.ts'
import { commandPayload } from './payloads.ts'
import { type PersonForms, personForms } from './person-forms.ts'
import { escaped, type Line, untouched } from './person-line.ts'
import { canSee, type How, type Place, pressed, surfaceAt } from './pressing.ts'
import type { Room } from './rooms.ts'
import { type Screen, screenOf } from './screens.ts'
import type { State } from './views.ts'
import type { World } from './world.ts'

/** Somebody in front of the workspace. Everything done answers with what that person then sees. */
export type Person = PersonForms & {
  readonly id: string
  /** Types a command, in the direct messages with the bot unless a channel is named. */
  command(name: string, text?: string, where?: { readonly channel: string }): Promise<Outcome>
  /** What this person sees there, oldest first; the direct messages with the bot unless a channel is named. */
  messages(channel?: string): readonly Message[]
  /** Presses a button, found by action id or by the words on it. */
  press(place: Place, name: string, how?: How | string): Promise<Outcome>
  /** Chooses in a menu, radio buttons, checkboxes or pickers, found by action id, label or option. */
  choose(place: Place, name: string, value: Answer): Promise<Outcome>
  /** Opens the Home tab and answers with it once the app has published what it had to. */
  openHome(): Promise<Screen | undefined>
  /** The Home tab as it was published last, without opening it. */
  home(): Screen | undefined
  /** Writes a message. The app is told of it in direct messages only. */
  say(text: string, channel?: string): Promise<Outcome>
}

/** @throws when nobody has this id */
export function asPerson(world: World, via: Omit<Line, 'member'>, id: string): Person {
  const member = () => {
    const found = world.roster.find(id)
    if (!found) throw new Error(`nobody here is ${id}`)
    return found
  }
  member()
  const line: Line = { ...via, member }
  const states = new Map<string, State>()
  const room = (channel?: string) => {
    const found = channel ? world.rooms.find(channel) : world.rooms.direct([id])
    if (!found?.members.includes(id)) throw new Error(`${id} is not in ${channel}`)
    return found
  }
  const act = async (place: Place, name: string, how: How): Promise<Outcome> => {
    const { element, payload } = pressed(surfaceAt(world, member(), place, states), name, how)
    const question = 'confirm' in element && element.confirm ? { asked: worded(element.confirm) } : {}
    const came = payload ? await line.deliver({ kind: 'interaction', payload }) : untouched
    return { ...outcomeOf(world, id, 'The app', came), ...question }
  }
  return {
    id,
    ...personForms(world, line, id),
    async command(name, text = '', where) {
      const place = room(where?.channel)
      const payload = commandPayload(world, member(), place, name, escaped(text))
      return replied(world, id, place, name, await line.deliver({ kind: 'command', payload }))
    },
    messages: (channel) =>
      world.ledger.inRoom(room(channel).id).filter((message) => canSee(world, member(), message)),
    press: (place, name, how = {}) => act(place, name, typeof how === 'string' ? { value: how } : how),
    choose: (place, name, value) => act(place, name, { value }),
    async openHome() {
      const before = world.views.home(id)
      await line.events.tell({
        type: 'app_home_opened',
        user: id,
        channel: room().id,
        tab: 'home',
        event_ts: world.ledger.stamp(),
        ...(before && { view: { id: before.id, hash: before.hash, type: 'home' } }),
      })
      await world.traffic.quiet()
      const home = world.views.home(id)
      return home && screenOf(world, home)
    },
    home() {
      const home = world.views.home(id)
      return home && screenOf(world, home)
    },
    async say(text, channel) {
      const place = room(channel)
      const message = world.ledger.post({ channel: place.id, from: id, text: escaped(text) })
      // A platform tells nobody of messages that it was not allowed to read.
      const mayRead = world.scopes?.includes('im:history') ?? true
      if (place.kind !== 'direct' || !mayRead) return outcomeOf(world, id, 'The app', untouched)
      const came = await line.events.tell({
        type: 'message',
        channel: place.id,
        channel_type: 'im',
        user: id,
        text: message.text,
        ts: message.ts,
        event_ts: message.ts,
        team: member().connectedTeam ?? world.identity.team.id,
      })
      return outcomeOf(world, id, 'The app', came)
    },
  }
}

/** A command's acknowledgement may say something; what cannot be shown is the app's failure, and visible. */
function replied(world: World, id: string, place: Room, name: string, came: Acknowledgement): Outcome {
  const outcome = outcomeOf(world, id, name, came)
  const said = typeof came.answer === 'string' ? { text: came.answer } : (came.answer as object | undefined)
  if (!came.acknowledged || !said || Object.keys(said).length === 0) return outcome
  const reply = showReply(world, { person: id, channel: place.id }, said)
  return 'ok' in reply
    ? { ...outcome, complaint: `${name} failed: its answer cannot be shown (${reply.error}).` }
    : { ...outcome, reply }
}

type Texted = { readonly text: string }
type Confirm = {
  readonly title: Texted
  readonly text: Texted
  readonly confirm: Texted
  readonly deny: Texted
}

function worded({ title, text, confirm, deny }: Confirm) {
  return { title: title.text, text: text.text, confirm: confirm.text, deny: deny.text }
}
