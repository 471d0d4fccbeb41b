import { html } from 'hono/html'
import type { Block, Element } from '../block-limits.ts'
import { elementsOf } from '../block-surfaces.ts'
import type { Message } from '../ledger.ts'
import { actionId } from '../views.ts'
import { blocksOf } from './blocks.ts'
import { control, group, isGroup } from './field.ts'
import { lines, marked, type Piece } from './mark-up.ts'
import { instantOf, type Reader, timeInWords } from './reader.ts'

const newest = 8

/** Messages with the newest on top, as notes on a pad; what is older is folded away. */
export function notes(reader: Reader, messages: readonly Message[]): Piece {
  const all = messages.toReversed().map((message) => note(reader, message))
  if (all.length === 0) return html`<p class="aside">Nothing has come yet.</p>`
  const older = all.slice(newest)
  return html`${all.slice(0, newest)}
  ${older.length > 0 && html`<details><summary>${older.length} earlier</summary>${older}</details>`}`
}

/** Where something is pressed, as hidden fields of its form. */
export type Surface = { readonly key: string; readonly fields: Readonly<Record<string, string>> }

/** The interactive parts of a block outside a form in front: every one is a small form of its own. */
export function doings(reader: Reader, { key, fields }: Surface, block: Block): Piece {
  const alone = elementsOf(block).length === 1
  return html`<div class="doings">
    ${elementsOf(block).map((element, i) => {
      const id = `${key}-${block.block_id}-${i}`
      const hidden = { ...fields, block: block.block_id ?? '', part: String(i) }
      return html`<form method="post" action="/as/${reader.who}/press" class="${alone ? 'alone' : 'beside'}">
        ${Object.entries(hidden).map(([name, value]) => html`<input type="hidden" name="${name}" value="${value}" />`)}
        ${element.type === 'button' ? button(id, element) : menu(reader, block, element, id)}
      </form>`
    })}
  </div>`
}

export function button(
  id: string,
  element: Extract<Element, { type: 'button' }>,
  rest: Piece | string = '',
): Piece {
  const { text, style = 'plain', accessibility_label: spoken } = element
  return html`<button id="${id}" class="${style}" ${spoken && html`aria-label="${spoken}"`} ${rest}>${text.text}</button>`
}

function menu(reader: Reader, block: Block, element: Element, id: string): Piece {
  const said =
    block.type === 'section' ? block.text?.text : block.type === 'input' ? block.label.text : undefined
  const placeholder = 'placeholder' in element ? element.placeholder?.text : undefined
  const label = placeholder ?? said ?? (element.type === 'overflow' ? 'More' : actionId(element))
  const held = { id: `${id}-menu`, name: 'choice', label, value: initially(element) }
  const go = html`<button id="${id}" class="plain">Choose</button>`
  return isGroup(element)
    ? html`<fieldset class="field"><legend>${lines(label)}</legend>${group(reader, element, held)}</fieldset>${go}`
    : html`<label class="spoken" for="${held.id}">${lines(label)}</label>${control(reader, element, held)} ${go}`
}

function note(reader: Reader, message: Message): Piece {
  const { ts, channel, from, edited } = message
  const at = instantOf(ts)
  const bot = reader.stage.workspace.identity.bot.user
  const surface = { key: `m${ts.replace('.', '-')}`, fields: { place: 'message', channel, ts } }
  return html`<article class="note ${from === bot ? 'from-bot' : 'from-person'}" aria-label="${timeInWords(at, reader.zone)}">
    <p class="when">
      <time datetime="${at}">${timeInWords(at, reader.zone)}</time>
      ${from !== bot && html`<span>${reader.nameOf(from)} wrote</span>`}
      ${edited && html`<span class="changed">changed ${timeInWords(instantOf(edited.ts), reader.zone)}</span>`}
      ${message.ephemeralTo && html`<span>only you see this</span>`}
    </p>
    ${
      message.blocks.length > 0
        ? blocksOf(reader, message.blocks, (block) => doings(reader, surface, block))
        : html`<p>${marked(message.text, reader.nameOf)}</p>`
    }
    ${(message.files ?? []).map((id) => attached(reader, id))}
  </article>`
}

function attached({ stage }: Reader, id: string): Piece {
  const file = stage.workspace.files.find(id)
  if (!file) return html`<p class="aside">A file that is gone.</p>`
  const isPicture = /\.(png|jpe?g|gif)$/i.test(file.name)
  return isPicture
    ? html`<img src="/picture/${id}" alt="${file.altText ?? file.title}" />`
    : html`<p><a href="/picture/${id}" download="${file.name}">${file.title}</a></p>`
}

function initially(element: Element): unknown {
  if ('initial_option' in element) return element.initial_option?.value
  return 'initial_options' in element ? element.initial_options?.map((option) => option.value) : undefined
}
