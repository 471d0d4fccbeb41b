import type { Block } from './block-limits.ts'
import type { NameOf } from './mark-up.ts'

type Rich = Extract<Block, { type: 'rich_text' }>['elements'][number]
type Inline = Extract<Rich, { type: 'rich_text_section' }>['elements'][number]
type Cell = Extract<Block, { type: 'table' }>['rows'][number][number]

/** Rich text is read as it stands: nothing in it is mark-up. */
export function richLines(part: Rich, nameOf: NameOf): string[] {
  const line = (elements: readonly Inline[]) => elements.map((e) => inline(e, nameOf)).join('')
  if (part.type !== 'rich_text_list') return [line(part.elements)]
  const from = (part.offset ?? 0) + 1
  const indent = '  '.repeat(part.indent ?? 0)
  return part.elements.map((item, i) => {
    const mark = part.style === 'ordered' ? `${from + i}.` : '-'
    return `${indent}${mark} ${line(item.elements)}`
  })
}

export function rowLine(row: readonly Cell[], nameOf: NameOf): string {
  const cell = (c: Cell) =>
    c.type === 'rich_text' ? c.elements.flatMap((part) => richLines(part, nameOf)).join(' ') : c.text
  return row.map(cell).join(' | ')
}

function inline(part: Inline, nameOf: NameOf): string {
  switch (part.type) {
    case 'text':
      return part.text
    case 'link':
      return part.text ? `${part.text} (${part.url})` : part.url
    case 'emoji':
      return `:${part.name}:`
    case 'user':
      return `@${nameOf(part.user_id) ?? part.user_id}`
    case 'channel':
      return `#${nameOf(part.channel_id) ?? part.channel_id}`
    case 'usergroup':
      return `@${part.usergroup_id}`
    case 'broadcast':
      return `@${part.range}`
    case 'date':
      return part.fallback ?? String(part.timestamp)
    default:
      return part satisfies never
  }
}
