import type { Block, Element } from './block-limits.ts'
import { elementsOf } from './block-surfaces.ts'
import { optionsOf } from './form-values.ts'
import { actionId } from './views.ts'

export type Found = { readonly block: Block; readonly element: Element }

/**
 * The one interactive part that is meant: by action id, by the words on it, by the label over it, or by one
 * of its options. `value` tells apart parts with the same name.
 * @throws when there is none, or more than one
 */
export function findOnScreen(blocks: readonly Block[], name: string, value?: string): Found {
  const all = blocks.flatMap((block) => elementsOf(block).map((element) => ({ block, element })))
  const ways: ((found: Found) => boolean)[] = [
    ({ element }) => actionId(element) === name,
    ({ element }) => wordsOn(element) === name,
    ({ block }) => block.block_id === name,
    ({ block }) => labelOf(block) === name,
    ({ element }) => optionsOf(element).some((o) => o.text.text === name || o.value === name),
  ]
  for (const way of ways) {
    const named = all.filter(way)
    const exact = named.length > 1 ? named.filter((found) => offers(found.element, value)) : named
    if (exact.length > 1)
      throw new Error(`${name} stands ${exact.length} times on the screen; say which by its value`)
    if (exact[0]) return exact[0]
  }
  const seen = all.map(({ block, element }) => labelOf(block) ?? wordsOn(element) ?? actionId(element))
  throw new Error(`${name} is not on the screen; there is: ${seen.join(', ') || 'nothing to act on'}`)
}

function wordsOn(element: Element): string | undefined {
  if (element.type === 'button') return element.text.text
  return 'placeholder' in element ? element.placeholder?.text : undefined
}

function labelOf(block: Block): string | undefined {
  if (block.type === 'input') return block.label.text
  return block.type === 'section' ? block.text?.text : undefined
}

function offers(element: Element, value?: string): boolean {
  if (value === undefined) return true
  if (element.type === 'button') return element.value === value
  return optionsOf(element).some((o) => o.value === value || o.text.text === value)
}
