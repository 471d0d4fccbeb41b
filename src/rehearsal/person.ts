import type { Acknowledgement, Envelope } from './deliveries.ts'
import type { EventPost } from './event-post.ts'
import { checkForm } from './form-check.ts'
import { type Answer, answered } from './form-values.ts'
import { showReply } from './late-replies.ts'
import type { Message } from './ledger.ts'
import { findOnScreen } from './on-screen.ts'
import { type Outcome, outcomeOf, type Submitted } from './outcomes.ts'
import { closedPayload, commandPayload, submissionPayload } from './payloads.ts'
import { canSee, type How, type Place, pressed, surfaceAt } from './pressing.ts'
import { type Screen, screenOf } from './screens.ts'
import { settle } from './submitting.ts'
import { hold, type State } from './views.ts'
import type { World } from './world.ts'

/** Somebody in front of the workspace. Everything done answers with what that person then sees. */
export type Person = {
  readonly id: string
  /** Types a command, in the direct messages with the bot unless a channel is named. */
  command(name: string, text?: string, where?: { readonly channel: string }): Promise<Outcome>
  /** The modal in front. */
  modal(): Screen | undefined
  /** Fills one field, found by block id or by the label a person reads. */
  fill(field: string, answer: Answer): void
  submit(): Promise<Submitted>
  /** Leaves the modal in front, or with `all` the whole stack. */
  close(all?: boolean): Promise<Outcome>
  /** What this person sees there, oldest first; the direct messages with the bot unless a channel is named. */
  messages(channel?: string): readonly Message[]
  /** Presses a button, found by action id or by the words on it. */
  press(place: Place, name: string, how?: How | string): Promise<Outcome>
  /** Chooses in a menu, radio buttons, checkboxes or pickers, found by action id, label or option. */
  choose(place: Place, name: string, value: Answer): Promise<Outcome>
  /** Opens the Home tab and answers with it once the app has published what it had to. */
  openHome(): Promise<Screen | undefined>
  /** Writes a message. The app is told of it in direct messages only. */
  say(text: string, channel?: string): Promise<Outcome>
}

export type Line = {
  deliver(envelope: Envelope): Promise<Acknowledgement>
  readonly events: EventPost
}

const untouched: Acknowledgement = { acknowledged: true, status: 0 }

/** @throws when nobody has this id */
export function asPerson(world: World, line: Line, id: string): Person {
  const states = new Map<string, State>()
  const member = () => {
    const found = world.roster.find(id)
    if (!found) throw new Error(`nobody here is ${id}`)
    return found
  }
  member()
  const top = () => world.views.stack(id).at(-1)
  const front = () => {
    const view = top()
    if (!view) throw new Error('no modal is open')
    return view
  }
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
    async command(name, text = '', where) {
      const place = room(where?.channel)
      const payload = commandPayload(world, member(), place, name, escaped(text))
      const came = await line.deliver({ kind: 'command', payload })
      const outcome = outcomeOf(world, id, name, came)
      const said =
        typeof came.answer === 'string' ? { text: came.answer } : (came.answer as object | undefined)
      if (!came.acknowledged || !said || Object.keys(said).length === 0) return outcome
      const reply = showReply(world, { person: id, channel: place.id }, said)
      return 'ok' in reply
        ? {
            ...outcome,
            complaint: `${name} failed: its answer cannot be shown (${reply.error}).`,
          }
        : { ...outcome, reply }
    },
    modal() {
      const view = top()
      return view && screenOf(world, view)
    },
    fill(field, answer) {
      const view = front()
      const { block, element } = findOnScreen(view.blocks, field)
      hold(view.state, block, element, answered(element, answer))
    },
    async submit() {
      const view = front()
      if (!('submit' in view.sent) || !view.sent.submit) throw new Error('this modal has nothing to submit')
      view.errors = checkForm(view.blocks, view.state)
      if (Object.keys(view.errors).length > 0)
        return {
          ...outcomeOf(world, id, 'The form', untouched),
          sent: false,
          closed: false,
          errors: view.errors,
        }
      const payload = submissionPayload(world, member(), view)
      return settle(world, view, await line.deliver({ kind: 'interaction', payload }))
    },
    async close(all = false) {
      front()
      const told = world.views
        .close(id, all)
        .toReversed()
        .filter((view) => view.sent.notify_on_close)
      let came = untouched
      for (const view of told)
        came = await line.deliver({
          kind: 'interaction',
          payload: closedPayload(world, member(), view, all),
        })
      return outcomeOf(world, id, 'The app', came)
    },
    messages: (channel) =>
      world.ledger.inRoom(room(channel).id).filter((message) => canSee(world, member(), message)),
    press: (place, name, how = {}) => act(place, name, typeof how === 'string' ? { value: how } : how),
    choose: (place, name, value) => act(place, name, { value }),
    async openHome() {
      const direct = room()
      const before = world.views.home(id)
      await line.events.tell({
        type: 'app_home_opened',
        user: id,
        channel: direct.id,
        tab: 'home',
        event_ts: world.ledger.stamp(),
        ...(before && {
          view: { id: before.id, hash: before.hash, type: 'home' },
        }),
      })
      await world.traffic.quiet()
      const home = world.views.home(id)
      return home && screenOf(world, home)
    },
    async say(text, channel) {
      const place = room(channel)
      const message = world.ledger.post({
        channel: place.id,
        from: id,
        text: escaped(text),
      })
      if (place.kind !== 'direct') return outcomeOf(world, id, 'The app', untouched)
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

type Texted = { readonly text: string }
type Confirm = {
  readonly title: Texted
  readonly text: Texted
  readonly confirm: Texted
  readonly deny: Texted
}

function worded({ title, text, confirm, deny }: Confirm) {
  return {
    title: title.text,
    text: text.text,
    confirm: confirm.text,
    deny: deny.text,
  }
}

/** What a person types arrives with the three signs escaped. */
const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
