import type { Block, Element } from './block-limits.ts'
import { optionsOf } from './form-values.ts'

/** Names for ids that stand in a text; without one the id itself is shown. */
export type NameOf = (id: string) => string | undefined

export type Readable = {
  readonly text?: unknown
  readonly blocks?: readonly unknown[] | undefined
  readonly title?: unknown
}

/** What a person reads of a message or a view, top to bottom, one plain line each. */
export function readable(shown: Readable, nameOf: NameOf = () => undefined): string[] {
  const title = textOf(shown.title)
  const blocks = (shown.blocks ?? []) as readonly Block[]
  const body = blocks.length > 0 ? blocks.flatMap(blockLines) : [textOf(shown.text)]
  return [title, ...body]
    .flatMap((line) => plain(line, nameOf).split('\n'))
    .map((line) => line.trimEnd())
    .filter((line) => line !== '')
}

/** The mark-up of a text taken off: mentions by name, links by label, escaped signs as they are read. */
export function plain(text: string, nameOf: NameOf = () => undefined): string {
  return text
    .replace(/<([@#!])([^>|]+)(?:\|([^>]*))?>/g, (_, sign: string, id: string, label?: string) =>
      sign === '!' ? `@${label || id}` : `${sign}${label || nameOf(id) || id}`,
    )
    .replace(/<([^>|]+)\|([^>]*)>/g, '$2 ($1)')
    .replace(/<((?:https?|mailto|tel):[^>]+)>/g, '$1')
    .replace(/(?<![\p{L}\p{N}*_~])([*_~])(?=\S)([^\n]*?\S)\1(?![\p{L}\p{N}*_~])/gu, '$2')
    .replaceAll('```', '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
}

function blockLines(block: Block): string[] {
  switch (block.type) {
    case 'header':
    case 'alert':
      return [textOf(block.text)]
    case 'divider':
      return ['---']
    case 'markdown':
      return [block.text]
    case 'section':
      return [
        textOf(block.text),
        ...(block.fields ?? []).map(textOf),
        ...(block.accessory ? [elementLine(block.accessory)] : []),
      ]
    case 'context':
      return [block.elements.map((e) => (e.type === 'image' ? picture(e.alt_text) : e.text)).join(' ')]
    case 'actions':
      return [block.elements.map(elementLine).join(' ')]
    case 'image':
      return [textOf(block.title), picture(block.alt_text)]
    case 'input':
      return [
        `${block.label.text}${block.optional ? ' (optional)' : ''}: ${elementLine(block.element)}`,
        textOf(block.hint),
      ]
    case 'rich_text':
      return block.elements.flatMap(richLines)
    case 'table':
      return block.rows.map(rowLine)
    case 'data_table':
      return [block.caption, ...block.rows.map(rowLine)]
    case 'data_visualization':
      return [block.title, ...chartLines(block.chart)]
    default:
      return [`(${(block satisfies never as { type: string }).type})`]
  }
}

function elementLine(element: Element): string {
  const options = optionsOf(element)
    .map((o) => o.text.text)
    .join(' | ')
  switch (element.type) {
    case 'button':
      return `[${element.text.text}]`
    case 'image':
      return picture(element.alt_text)
    case 'overflow':
      return `[... ${options}]`
    default:
      return options ? `( ${options} )` : '____'
  }
}

type Rich = Extract<Block, { type: 'rich_text' }>['elements'][number]
type Inline = Extract<Rich, { type: 'rich_text_section' }>['elements'][number]

function richLines(part: Rich): string[] {
  if (part.type !== 'rich_text_list') return [part.elements.map(inline).join('')]
  const from = (part.offset ?? 0) + 1
  const indent = '  '.repeat(part.indent ?? 0)
  return part.elements.map((item, i) => {
    const mark = part.style === 'ordered' ? `${from + i}.` : '-'
    return `${indent}${mark} ${item.elements.map(inline).join('')}`
  })
}

function inline(part: Inline): string {
  switch (part.type) {
    case 'text':
      return literal(part.text)
    case 'link':
      return part.text ? `${literal(part.text)} (${part.url})` : part.url
    case 'emoji':
      return `:${part.name}:`
    case 'user':
      return `<@${part.user_id}>`
    case 'channel':
      return `<#${part.channel_id}>`
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

type Cell = Extract<Block, { type: 'table' }>['rows'][number][number]

function rowLine(row: readonly Cell[]): string {
  const cell = (c: Cell) =>
    c.type === 'rich_text' ? c.elements.flatMap(richLines).join(' ') : literal(c.text)
  return row.map(cell).join(' | ')
}

type Chart = Extract<Block, { type: 'data_visualization' }>['chart']

function chartLines(chart: Chart): string[] {
  const points = (all: readonly { label: string; value: number }[]) =>
    all.map((p) => `${p.label} ${p.value}`).join(', ')
  return chart.type === 'pie'
    ? [points(chart.segments)]
    : chart.series.map((series) => `${series.name}: ${points(series.data)}`)
}

const picture = (altText: string) => `[picture: ${literal(altText)}]`

/** Text that the platform does not read as mark-up survives `plain` unchanged. */
const literal = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')

function textOf(text: unknown): string {
  if (typeof text === 'string') return text
  const object = text as { type?: string; text?: string } | undefined
  return object?.type === 'plain_text' ? literal(object.text ?? '') : (object?.text ?? '')
}
