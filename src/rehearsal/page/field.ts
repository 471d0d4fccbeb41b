import { html } from 'hono/html'
import { dayAt, wallTimeAt } from '../../chart/day.ts'
import type { Element, InputBlock } from '../block-limits.ts'
import { optionsOf } from '../form-values.ts'
import { readable } from '../readable.ts'
import { lines, marked, type Piece } from './mark-up.ts'
import { choicesIn, chosenIn } from './options.ts'
import type { Reader } from './reader.ts'

/** What a control needs besides its element: how it is named on the page, what it holds, what is wrong with it. */
export type Held = {
  readonly id: string
  readonly name: string
  readonly label: string
  /** As `Screen.values` has it. */
  readonly value: unknown
  readonly wrong?: string | undefined
  readonly optional?: boolean
  readonly hint?: string | undefined
}

/** One question of a form: label, hint, control, and what is held against the answer. */
export function field(reader: Reader, { element }: Pick<InputBlock, 'element'>, held: Held): Piece {
  const { id, label, hint, wrong, optional } = held
  const note = optional ? html` <span class="aside">(optional)</span>` : ''
  const notes = html`${hint && html`<p class="aside" id="${id}-hint">${lines(hint)}</p>`}
    ${wrong && html`<p class="wrong" id="${id}-wrong">${lines(wrong)}</p>`}`
  if (isGroup(element))
    return html`<fieldset class="field" id="${id}" tabindex="-1" ${focusable(held)} ${described(held)}>
      <legend>${lines(label)}${note}</legend>
      ${notes}
      ${group(reader, element, held)}
    </fieldset>`
  return html`<div class="field">
    <label for="${id}">${lines(label)}${note}</label>
    ${notes}
    ${control(reader, element, held)}
  </div>`
}

/** A control on its own, where a label stands elsewhere or is only spoken. */
export function control(reader: Reader, element: Element, held: Held): Piece {
  const { id, name, value } = held
  const strict = html`${held.optional === false && html`aria-required="true"`} ${held.wrong && html`aria-invalid="true"`}`
  const rest = html`id="${id}" name="${name}" ${focusable(held)} ${described(held)} ${strict}`
  switch (element.type) {
    case 'static_select':
    case 'overflow':
    case 'users_select':
    case 'channels_select':
    case 'conversations_select':
      return html`<select ${rest}>
        <option value="">${placeholder(element) ?? 'Choose'}</option>
        ${choicesIn(reader, element, chosenIn(value))}
      </select>`
    case 'datepicker':
      return html`<input type="date" ${rest} value="${text(value)}" />`
    case 'timepicker':
      return html`<input type="time" ${rest} value="${text(value)}" />`
    case 'datetimepicker':
      return html`<input type="datetime-local" ${rest} value="${localTime(value, reader.zone)}" />`
    case 'number_input':
      return html`<input type="text" inputmode="decimal" autocomplete="off" ${rest} value="${text(value)}" />`
    case 'rich_text_input':
      return html`<textarea rows="4" ${rest}>${richText(value)}</textarea>`
    case 'file_input':
      return html`<input type="text" disabled ${rest} value="Files cannot be handed in here" />`
    case 'plain_text_input':
      if (element.multiline) return html`<textarea rows="3" ${rest}>${text(value)}</textarea>`
      return html`<input type="text" autocomplete="off" ${rest} value="${text(value)}" />`
    default:
      return html`<input type="text" autocomplete="off" ${rest} value="${text(value)}" />`
  }
}

export function isGroup({ type }: Element): boolean {
  return type === 'radio_buttons' || type === 'checkboxes' || type.startsWith('multi_')
}

/** Radio buttons, or boxes to tick, in the order in which they are offered. */
export function group(reader: Reader, element: Element, { id, name, value }: Held): Piece {
  const kind = element.type === 'radio_buttons' ? 'radio' : 'checkbox'
  const chosen = chosenIn(value)
  const offered =
    element.type === 'multi_users_select'
      ? reader.people.map((one) => ({ value: one.id, text: one.name, description: undefined }))
      : optionsOf(element)
  return html`${offered.map(
    (one, i) => html`<label class="choice" for="${id}-${i}">
      <input
        type="${kind}"
        id="${id}-${i}"
        name="${name}"
        value="${one.value}"
        ${chosen.includes(one.value ?? '') ? 'checked' : ''}
      />
      <span>
        ${marked(one.text, reader.nameOf)}
        ${one.description && html`<span class="aside">${marked(one.description, reader.nameOf)}</span>`}
      </span>
    </label>`,
  )}`
}

/** The page puts the cursor on the first of these that has something wrong, else on the first. */
function focusable({ wrong }: Held): Piece {
  return wrong ? html`data-field data-wrong` : html`data-field`
}

function described({ id, hint, wrong }: Held): Piece | string {
  const ids = [...(wrong ? [`${id}-wrong`] : []), ...(hint ? [`${id}-hint`] : [])].join(' ')
  return ids && html`aria-describedby="${ids}"`
}

function placeholder(element: Element): string | undefined {
  return 'placeholder' in element ? element.placeholder?.text : undefined
}

function text(value: unknown): string {
  return value === null || value === undefined ? '' : String(value)
}

function localTime(value: unknown, zone: string): string {
  if (!value) return ''
  const at = new Date(Number(value) * 1000).toISOString()
  return `${dayAt(at, zone)}T${wallTimeAt(at, zone)}`
}

function richText(value: unknown): string {
  return value ? readable({ blocks: [value] }).join('\n') : ''
}
