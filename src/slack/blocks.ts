import type { KnownBlock, Option, PlainTextElement, View } from '@slack/types'

/** The few blocks that every surface takes; anything newer needs a fallback (platform limits). */
export type Message = { readonly text: string; readonly blocks: KnownBlock[] }
export type Modal = View

/** Plain text: a person's own words go in here and can never mention anybody. Long words are cut with a mark. */
export function plain(text: string, most = 3000): PlainTextElement {
  return { type: 'plain_text', text: cut(text, most), emoji: false }
}

/** Escapes what chat markup reads as control: and only that. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
}

export function header(text: string): KnownBlock {
  return { type: 'header', text: plain(text, 150) }
}

/** Our own words, in markup. Whatever comes from people or files is escaped before it gets here. */
export function section(markup: string): KnownBlock {
  return { type: 'section', text: { type: 'mrkdwn', text: cut(markup, 3000) } }
}

/** Rows of two columns, on every surface: five rows a block, because a block takes ten fields. */
export function table(rows: readonly (readonly [string, string])[]): KnownBlock[] {
  const cell = (text: string) => ({ type: 'mrkdwn' as const, text: cut(text, 2000) })
  return Array.from({ length: Math.ceil(rows.length / 5) }, (_, i) => ({
    type: 'section',
    fields: rows.slice(5 * i, 5 * i + 5).flatMap((row) => row.map(cell)),
  }))
}

/** Somebody's own words, without markup. */
export function quote(text: string): KnownBlock {
  return { type: 'section', text: plain(text) }
}

export function context(...markup: readonly string[]): KnownBlock {
  return {
    type: 'context',
    elements: markup.slice(0, 10).map((text) => ({ type: 'mrkdwn', text: cut(text, 3000) })),
  }
}

export type ButtonSpec = {
  readonly does: string
  readonly label: string
  readonly value?: string
  readonly main?: boolean
}

export function buttons(...specs: readonly ButtonSpec[]): KnownBlock {
  return {
    type: 'actions',
    elements: specs.map(({ does, label, value, main }) => ({
      type: 'button',
      action_id: does,
      text: plain(label, 75),
      ...(value === undefined ? {} : { value }),
      ...(main ? { style: 'primary' as const } : {}),
    })),
  }
}

export function option(value: string, label: string): Option {
  return { value, text: plain(label, 75) }
}

export type InputSpec = {
  readonly name: string
  readonly label: string
  readonly hint?: string
  readonly optional?: boolean
}

/** An input whose block and action carry the same name, so that a refusal finds its field. */
export function input(spec: InputSpec, element: object): KnownBlock {
  return {
    type: 'input',
    block_id: spec.name,
    label: plain(spec.label, 2000),
    optional: spec.optional ?? false,
    ...(spec.hint ? { hint: plain(spec.hint, 2000) } : {}),
    element: { ...element, action_id: spec.name },
  } as KnownBlock
}

export function select(spec: InputSpec, options: readonly Option[], initial?: Option): KnownBlock {
  return input(spec, { type: 'static_select', options, ...(initial ? { initial_option: initial } : {}) })
}

export function radio(spec: InputSpec, options: readonly Option[]): KnownBlock {
  return input(spec, { type: 'radio_buttons', options })
}

export function checkboxes(spec: InputSpec, options: readonly Option[]): KnownBlock {
  return input(spec, { type: 'checkboxes', options })
}

export type NumberSpec = InputSpec & {
  readonly low: number
  readonly high: number
  readonly initial?: number
  readonly decimal?: boolean
}

export function numberInput(spec: NumberSpec): KnownBlock {
  const { low, high, initial, decimal } = spec
  return input(spec, {
    type: 'number_input',
    is_decimal_allowed: decimal ?? false,
    min_value: String(low),
    max_value: String(high),
    ...(initial === undefined ? {} : { initial_value: String(initial) }),
  })
}

export function textInput(spec: InputSpec & { readonly most?: number }): KnownBlock {
  return input(spec, { type: 'plain_text_input', multiline: true, max_length: spec.most ?? 3000 })
}

export function modal(
  spec: { readonly door: string; readonly title: string; readonly submit: string; readonly about: object },
  blocks: readonly KnownBlock[],
): Modal {
  return {
    type: 'modal',
    callback_id: spec.door,
    private_metadata: JSON.stringify(spec.about),
    title: plain(spec.title, 24),
    submit: plain(spec.submit, 24),
    close: plain('Cancel', 24),
    blocks: [...blocks],
  }
}

/** A modal to read and to press in: nothing is sent in. */
export function screen(
  spec: { readonly door: string; readonly title: string; readonly about: object },
  blocks: readonly KnownBlock[],
): Modal {
  return {
    type: 'modal',
    callback_id: spec.door,
    private_metadata: JSON.stringify(spec.about),
    title: plain(spec.title, 24),
    close: plain('Close', 24),
    blocks: blocks.slice(0, 100),
  }
}

function cut(text: string, most: number): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`
}
