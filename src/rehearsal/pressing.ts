import type { Block, Element } from './block-limits.ts'
import { type Answer, answered, optionOf } from './form-values.ts'
import type { Message } from './ledger.ts'
import { findOnScreen } from './on-screen.ts'
import { messageActionPayload, type Pressed, viewActionPayload } from './payloads.ts'
import type { Member } from './roster.ts'
import { actionId, hold, type OpenView, type State, stateOf } from './views.ts'
import type { Json, World } from './world.ts'

/** Where something is pressed: on a message, on one's Home, or in the modal in front. */
export type Place =
  | { readonly channel: string; readonly ts: string }
  | { readonly home: true }
  | { readonly modal: true }

export type How = {
  /** The option chosen, or the value of the one button meant among several of the same name. */
  readonly value?: Answer
  /** Says no to the question that a button asks before it acts. */
  readonly deny?: boolean
}

export type Surface = {
  readonly blocks: readonly Block[]
  readonly state: State
  payload(pressed: Pressed): Json
}

/** What stands in front of this person in that place. @throws when nothing does */
export function surfaceAt(world: World, member: Member, place: Place, states: Map<string, State>): Surface {
  if ('ts' in place) return messageSurface(world, member, place, states)
  const view = 'home' in place ? world.views.home(member.id) : world.views.stack(member.id).at(-1)
  if (!view) throw new Error('home' in place ? 'no Home was published for this person' : 'no modal is open')
  return viewSurface(world, member, view)
}

/** Presses or chooses, and says what the app is told. */
export function pressed(surface: Surface, name: string, how: How): { element: Element; payload?: Json } {
  const hint = typeof how.value === 'string' ? how.value : undefined
  const { block, element } = findOnScreen(surface.blocks, name, hint)
  if (how.deny && 'confirm' in element && element.confirm) return { element }
  const value = chosen(element, how.value)
  const id = actionId(element)
  if (value.held) hold(surface.state, block, element, value.held)
  // Inside a form an answer stays with the form, unless the block asks to be told.
  if (block.type === 'input' && !block.dispatch_action) return { element }
  const action = {
    action_id: id,
    block_id: block.block_id,
    ...value.told,
    action_ts: String(Date.now() / 1000),
  }
  return {
    element,
    payload: surface.payload({ action, state: surface.state }),
  }
}

function chosen(
  element: Element,
  value: Answer | undefined,
): { told: Json; held?: ReturnType<typeof answered> } {
  if (element.type === 'button') {
    const { text, value: carried } = element
    return {
      told: {
        type: 'button',
        text,
        ...(carried !== undefined && { value: carried }),
      },
    }
  }
  if (element.type === 'overflow')
    return {
      told: {
        type: 'overflow',
        selected_option: optionOf(element, String(value ?? '')),
      },
    }
  if (value === undefined) throw new Error(`choose what in this ${element.type}?`)
  const held = answered(element, value)
  return { told: held, held }
}

function viewSurface(world: World, member: Member, view: OpenView): Surface {
  const payload = ({ action }: Pressed) => viewActionPayload(world, member, view, action)
  return { blocks: view.blocks, state: view.state, payload }
}

function messageSurface(
  world: World,
  member: Member,
  place: { readonly channel: string; readonly ts: string },
  states: Map<string, State>,
): Surface {
  const message = world.ledger.find(place.channel, place.ts)
  if (!message || !canSee(world, member, message)) throw new Error('this person sees no such message')
  const key = `${place.channel}/${place.ts}`
  const state = stateOf(message.blocks, states.get(key))
  states.set(key, state)
  return {
    blocks: message.blocks,
    state,
    payload: (done) => messageActionPayload(world, member, message, done),
  }
}

export function canSee(world: World, member: Member, message: Message): boolean {
  const room = world.rooms.find(message.channel)
  const mine = message.ephemeralTo === undefined || message.ephemeralTo === member.id
  return mine && (room?.members.includes(member.id) ?? false)
}
