import type { Block, Element } from './block-limits.ts'
import { optionsOf } from './form-values.ts'
import { type NameOf, words } from './mark-up.ts'
import { richLines, rowLine } from './readable-rich-text.ts'

export type Readable = {
  readonly text?: unknown
  readonly blocks?: readonly unknown[] | undefined
  readonly title?: unknown
}

/** What a person reads of a message or a view, top to bottom, one plain line each. */
export function readable(shown: Readable, nameOf: NameOf = () => undefined): string[] {
  const blocks = (shown.blocks ?? []) as readonly Block[]
  const body = blocks.length > 0 ? blocks.flatMap((b) => blockLines(b, nameOf)) : [words(shown.text, nameOf)]
  return [words(shown.title, nameOf), ...body]
    .flatMap((line) => line.split('\n'))
    .map((line) => line.trimEnd())
    .filter((line) => line !== '')
}

function blockLines(block: Block, nameOf: NameOf): string[] {
  const said = (text: unknown) => words(text, nameOf)
  switch (block.type) {
    case 'header':
    case 'alert':
      return [said(block.text)]
    case 'divider':
      return ['---']
    case 'markdown':
      return [block.text]
    case 'section':
      return [
        said(block.text),
        ...inPairs((block.fields ?? []).map(said)),
        ...(block.accessory ? [elementLine(block.accessory)] : []),
      ]
    case 'context':
      return [block.elements.map((e) => (e.type === 'image' ? picture(e.alt_text) : said(e))).join(' ')]
    case 'actions':
      return [block.elements.map(elementLine).join(' ')]
    case 'image':
      return [said(block.title), picture(block.alt_text)]
    case 'input': {
      const label = `${block.label.text}${block.optional ? ' (optional)' : ''}`
      return [`${label}: ${elementLine(block.element)}`, said(block.hint)]
    }
    case 'rich_text':
      return block.elements.flatMap((part) => richLines(part, nameOf))
    case 'table':
      return block.rows.map((row) => rowLine(row, nameOf))
    case 'data_table':
      return [block.caption, ...block.rows.map((row) => rowLine(row, nameOf))]
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

type Chart = Extract<Block, { type: 'data_visualization' }>['chart']

function chartLines(chart: Chart): string[] {
  const points = (all: readonly { label: string; value: number }[]) =>
    all.map((p) => `${p.label} ${p.value}`).join(', ')
  return chart.type === 'pie'
    ? [points(chart.segments)]
    : chart.series.map((series) => `${series.name}: ${points(series.data)}`)
}

const picture = (altText: string) => `[picture: ${altText}]`

/** Fields stand in two columns, read row by row. */
function inPairs(fields: readonly string[]): string[] {
  const rows = Array.from({ length: Math.ceil(fields.length / 2) }, (_, i) => fields.slice(2 * i, 2 * i + 2))
  return rows.map((row) => row.map((field) => field.replaceAll('\n', ', ')).join(' | '))
}
