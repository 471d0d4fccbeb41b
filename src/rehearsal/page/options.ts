import { html } from 'hono/html'
import type { Option } from '../block-elements.ts'
import type { Element } from '../block-limits.ts'
import { optionsOf } from '../form-values.ts'
import type { Piece } from './mark-up.ts'
import type { Reader } from './reader.ts'

/** The options of a menu, in their groups; people and channels by name. */
export function choicesIn(reader: Reader, element: Element, chosen: readonly string[]): Piece {
  const one = (value: string, text: string) =>
    html`<option value="${value}" ${chosen.includes(value) ? 'selected' : ''}>${text}</option>`
  const all = (options: readonly Option[]) => options.map(({ value, text }) => one(value ?? '', text.text))
  if (element.type === 'users_select') return html`${reader.people.map(({ id, name }) => one(id, name))}`
  if (element.type === 'channels_select' || element.type === 'conversations_select')
    return html`${reader.rooms.map(({ id, name }) => one(id, name))}`
  if ('option_groups' in element && element.option_groups)
    return html`${element.option_groups.map(
      ({ label, options }) => html`<optgroup label="${label.text}">${all(options)}</optgroup>`,
    )}`
  return html`${all(optionsOf(element))}`
}

export function chosenIn(value: unknown): string[] {
  return [value ?? []].flat().map(String)
}
