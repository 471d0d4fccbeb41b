import { html, raw } from 'hono/html'
import type { NameOf } from '../mark-up.ts'
import { plain } from '../mark-up.ts'

/** A piece of the page. Whatever is put into one is escaped, unless it is such a piece itself. */
export type Piece = ReturnType<typeof html>

/** A text object or a bare string as a person reads it, with bold and italics kept and nothing else. */
export function marked(text: unknown, nameOf: NameOf): Piece {
  const object =
    typeof text === 'string' ? { type: 'mrkdwn', text } : (text as { type?: string; text?: string })
  const said = object?.text ?? ''
  return object?.type === 'plain_text' ? lines(said) : html`${pieces(said, nameOf)}`
}

/** Plain words with their line breaks. */
export function lines(text: string): Piece {
  return html`${text.split('\n').map((line, i) => (i === 0 ? html`${line}` : html`${raw('<br>')}${line}`))}`
}

const span = /(?<![\p{L}\p{N}*_~])([*_])(?=\S)([^\n]*?\S)\1(?![\p{L}\p{N}*_~])/u

function pieces(text: string, nameOf: NameOf): Piece[] {
  const found = span.exec(text)
  if (!found) return text === '' ? [] : [lines(plain(text, nameOf))]
  const [whole, sign, inner = ''] = found
  const inside = html`${pieces(inner, nameOf)}`
  return [
    ...pieces(text.slice(0, found.index), nameOf),
    sign === '*' ? html`<strong>${inside}</strong>` : html`<em>${inside}</em>`,
    ...pieces(text.slice(found.index + whole.length), nameOf),
  ]
}
