import { meant } from './as-typed.ts'
import type { Block, Element, InputBlock } from './block-limits.ts'
import { elementsOf } from './block-surfaces.ts'
import { optionsOf } from './form-values.ts'
import type { Place } from './pressing.ts'
import type { Screen } from './screens.ts'
import type { Stage } from './stage.ts'
import { channelsOf } from './terminal-screen.ts'
import { actionId } from './views.ts'

export type Spot = { readonly place: Place; readonly element: Element; readonly block: Block }

/** The field of the form in front that is meant by its label, or the beginning of it. @throws with words */
export function fieldMeant(screen: Screen, typed: string): InputBlock {
  const fields = screen.blocks.filter((block): block is InputBlock => block.type === 'input')
  const exact = fields.filter((block) => block.block_id === typed)
  const found = exact.length > 0 ? exact : meant(fields, (block) => block.label.text, typed)
  if (found.length === 1 && found[0]) return found[0]
  const names = (found.length > 0 ? found : fields).map((block) => block.label.text).join(' | ')
  throw new Error(`"${typed}" is ${found.length > 1 ? 'more than one field' : 'no field here'}: ${names}`)
}

/**
 * What can be pressed or chosen by that name: in the form in front when there is one, else in the newest
 * message that has it, else on Home. @throws with words
 */
export function spotMeant(stage: Stage, who: string, typed: string, value?: string): Spot {
  const surfaces = surfacesOf(stage, who)
  for (const spots of surfaces) {
    const found = meant(spots, ({ element, block }) => wordsOn(element, block), typed)
    const byId = spots.filter(({ element }) => actionId(element) === typed)
    const named = byId.length > 0 ? byId : found
    const exact =
      named.length > 1 && value !== undefined ? named.filter((spot) => carries(spot, value)) : named
    if (exact.length === 1 && exact[0]) return exact[0]
    if (named.length > 1)
      throw new Error(`"${typed}" stands ${named.length} times; add one of: ${carried(named)}`)
  }
  const all = surfaces.flat().map(({ element, block }) => wordsOn(element, block))
  throw new Error(`There is no "${typed}" to press; there is: ${[...new Set(all)].join(' | ') || 'nothing'}`)
}

function surfacesOf(stage: Stage, who: string): Spot[][] {
  const person = stage.as(who)
  const modal = person.modal()
  if (modal) return [spotsIn(modal.blocks, { modal: true })]
  const rooms = [undefined, ...channelsOf(stage, who).map((room) => room.id)]
  const messages = rooms
    .flatMap((room) => [...person.messages(room)])
    .sort((a, b) => Number(b.ts) - Number(a.ts))
    .map((message) => spotsIn(message.blocks, { channel: message.channel, ts: message.ts }))
  return [...messages, spotsIn(person.home()?.blocks ?? [], { home: true })]
}

function spotsIn(blocks: readonly Block[], place: Place): Spot[] {
  const pressable = blocks.filter((block) => block.type !== 'input' || block.dispatch_action)
  return pressable.flatMap((block) => elementsOf(block).map((element) => ({ place, element, block })))
}

function wordsOn(element: Element, block: Block): string {
  if (element.type === 'button') return element.text.text
  if (block.type === 'input') return block.label.text
  if ('placeholder' in element && element.placeholder) return element.placeholder.text
  return (block.type === 'section' ? block.text?.text : undefined) ?? actionId(element)
}

function carries({ element }: Spot, value: string): boolean {
  if (element.type === 'button') return element.value === value
  return optionsOf(element).some((option) => option.value === value || option.text.text === value)
}

function carried(spots: readonly Spot[]): string {
  return spots.map(({ element }) => (element.type === 'button' ? (element.value ?? '') : '')).join(' | ')
}
