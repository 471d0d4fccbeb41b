import { html } from 'hono/html'
import type { Block } from '../block-limits.ts'
import { elementsOf } from '../block-surfaces.ts'
import type { Screen } from '../screens.ts'
import { blocksOf } from './blocks.ts'
import { control, field, group, isGroup } from './field.ts'
import type { Piece } from './mark-up.ts'
import { button } from './message.ts'
import type { Reader } from './reader.ts'

/** A question that stands between a press and what it does. */
export type Question = {
  readonly title: string
  readonly text: string
  readonly confirm: string
  readonly deny: string
}

/** The form in front of somebody. Everything in it travels together, whatever is pressed. */
export function formInFront(reader: Reader, screen: Screen, said: string): Piece {
  const act = `/as/${reader.who}/form`
  return html`<dialog open aria-labelledby="form-title" data-view="${screen.id}">
    <form method="post" action="${act}" novalidate>
      <input type="hidden" name="view" value="${screen.id}" />
      ${screen.submit && atOnce}
      <h2 id="form-title">${screen.title}</h2>
      ${screen.under > 0 && html`<p class="aside">This lies over another form.</p>`}
      ${said && html`<p class="wrong" role="alert">${said}</p>`}
      ${blocksOf(reader, screen.blocks, (block) => part(reader, screen, block))}
      <div class="ends">
        ${screen.submit && html`<button class="primary" name="does" value="submit">${screen.submit}</button>`}
        <button class="plain" name="does" value="close">Leave</button>
      </div>
    </form>
  </dialog>`
}

/** The Enter key takes the first button of a form: that must be the one that sends it. */
const atOnce = html`<button class="spoken" name="does" value="submit" tabindex="-1" aria-hidden="true">Send</button>`

export function questionInFront({ who }: Reader, { title, text, confirm, deny }: Question): Piece {
  return html`<dialog open role="alertdialog" aria-labelledby="question-title" aria-describedby="question-text">
    <form method="post" action="/as/${who}/answer">
      <h2 id="question-title">${title}</h2>
      <p id="question-text">${text}</p>
      <div class="ends">
        <button class="primary" name="answer" value="yes">${confirm}</button>
        <button class="plain" name="answer" value="close" data-field>${deny}</button>
      </div>
    </form>
  </dialog>`
}

function part(reader: Reader, { values, errors }: Screen, block: Block): Piece {
  const id = block.block_id ?? ''
  const press = (i: number) => html`name="does" value="press ${id} ${i}"`
  if (block.type === 'input') {
    const { element, label, hint, optional = false } = block
    const held = { id: `f-${id}`, name: `f-${id}`, label: label.text, value: values[id], wrong: errors[id] }
    return html`${field(reader, { element }, { ...held, optional, hint: hint?.text })}
    ${block.dispatch_action && html`<button class="plain" ${press(0)}>Use this</button>`}`
  }
  return html`<div class="doings">
    ${elementsOf(block).map((element, i) => {
      const key = `f-${id}-${i}`
      if (element.type === 'button') return button(key, element, press(i))
      const label = block.type === 'section' ? (block.text?.text ?? 'Choose') : 'Choose'
      const held = { id: `${key}-menu`, name: `f-${id}-${i}`, label, value: values[id] }
      const drawn = isGroup(element)
        ? html`<fieldset class="field"><legend>${label}</legend>${group(reader, element, held)}</fieldset>`
        : html`<label class="spoken" for="${held.id}">${label}</label>${control(reader, element, held)}`
      return html`${drawn} <button class="plain" ${press(i)}>Use this</button>`
    })}
  </div>`
}
