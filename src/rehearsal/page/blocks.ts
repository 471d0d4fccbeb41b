import { html } from 'hono/html'
import type { Block } from '../block-limits.ts'
import { readable } from '../readable.ts'
import { lines, marked, type Piece } from './mark-up.ts'
import type { Reader } from './reader.ts'

/** How one interactive part is drawn where these blocks stand: on a message, on Home, or inside a form. */
export type Draw = (block: Block) => Piece

/** Blocks as a person reads them, top to bottom. */
export function blocksOf(reader: Reader, blocks: readonly Block[], draw: Draw): Piece {
  return html`${blocks.map((block) => blockOf(reader, block, draw))}`
}

function blockOf(reader: Reader, block: Block, draw: Draw): Piece {
  const { nameOf } = reader
  switch (block.type) {
    case 'header':
      return html`<h4>${block.text.text}</h4>`
    case 'divider':
      return html`<hr />`
    case 'section':
      return html`${block.text && html`<p>${marked(block.text, nameOf)}</p>`}
      ${block.fields && html`<ul class="facts">${block.fields.map((f) => html`<li>${marked(f, nameOf)}</li>`)}</ul>`}
      ${block.accessory && (block.accessory.type === 'image' ? picture(block.accessory) : draw(block))}`
    case 'context':
      return html`<p class="aside">
        ${block.elements.map((e) => (e.type === 'image' ? picture(e) : html`${marked(e, nameOf)} `))}
      </p>`
    case 'actions':
    case 'input':
      return draw(block)
    case 'image':
      return html`<figure>
        ${picture(block)}${block.title && html`<figcaption>${block.title.text}</figcaption>`}
      </figure>`
    case 'alert':
      return html`<p class="alert">${marked(block.text, nameOf)}</p>`
    case 'markdown':
      return html`<p>${lines(block.text)}</p>`
    case 'table':
      return html`<table>
        ${block.rows.map((row, i) => html`<tr>${row.map((cell) => cellOf(reader, cell, i === 0))}</tr>`)}
      </table>`
    default:
      return html`${readable({ blocks: [block] }, nameOf).map((line) => html`<p>${line}</p>`)}`
  }
}

type Cell = Extract<Block, { type: 'table' }>['rows'][number][number]

function cellOf({ nameOf }: Reader, cell: Cell, heads: boolean): Piece {
  const words = cell.type === 'rich_text' ? readable({ blocks: [cell] }, nameOf).join('\n') : cell.text
  return heads ? html`<th scope="col">${lines(words)}</th>` : html`<td>${lines(words)}</td>`
}

type Picture = {
  readonly alt_text: string
  readonly slack_file?: { readonly id?: string | undefined; readonly url?: string | undefined } | undefined
}

/** Pictures of the workspace only: the page loads nothing from elsewhere, and says the words instead. */
function picture({ alt_text: alt, slack_file: file }: Picture): Piece {
  const id = file?.id ?? /\/files\/(F[A-Z0-9]+)/.exec(file?.url ?? '')?.[1]
  return id
    ? html`<img src="/picture/${id}" alt="${alt}" />`
    : html`<span class="aside">Picture: ${alt}</span>`
}
