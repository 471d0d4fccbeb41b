import type { Option } from './block-elements.ts'
import type { Element } from './block-limits.ts'

/** What one element submits: one field besides its type, named by the platform after the element. */
export type StateValue = {
  readonly type: string
  readonly [field: string]: unknown
}

/** The value an element starts with, or undefined for elements that hold none (buttons, overflow). */
export function initialValue(element: Element): StateValue | undefined {
  switch (element.type) {
    case 'button':
    case 'overflow':
    case 'image':
      return undefined
    case 'plain_text_input':
    case 'number_input':
    case 'email_text_input':
    case 'url_text_input':
      return { type: element.type, value: element.initial_value ?? null }
    case 'rich_text_input':
      return {
        type: element.type,
        rich_text_value: element.initial_value ?? null,
      }
    case 'static_select':
    case 'radio_buttons':
      return {
        type: element.type,
        selected_option: element.initial_option ?? null,
      }
    case 'multi_static_select':
    case 'checkboxes':
      return {
        type: element.type,
        selected_options: element.initial_options ?? [],
      }
    case 'users_select':
      return {
        type: element.type,
        selected_user: element.initial_user ?? null,
      }
    case 'multi_users_select':
      return {
        type: element.type,
        selected_users: element.initial_users ?? [],
      }
    case 'channels_select':
      return {
        type: element.type,
        selected_channel: element.initial_channel ?? null,
      }
    case 'conversations_select':
      return {
        type: element.type,
        selected_conversation: element.initial_conversation ?? null,
      }
    case 'datepicker':
      return {
        type: element.type,
        selected_date: element.initial_date ?? null,
      }
    case 'timepicker':
      return {
        type: element.type,
        selected_time: element.initial_time ?? null,
        ...(element.timezone && { timezone: element.timezone }),
      }
    case 'datetimepicker':
      return {
        type: element.type,
        selected_date_time: element.initial_date_time ?? null,
      }
    case 'file_input':
      return { type: element.type, files: [] }
    default:
      return element satisfies never
  }
}

/** What a person types or chooses. Options are named by their value or by the words that are seen. */
export type Answer = string | number | readonly string[] | null

/**
 * The value after a person answered.
 * @throws when a client would offer no way to answer like that (an option that is not there, no such day)
 */
export function answered(element: Element, answer: Answer): StateValue {
  const start = initialValue(element)
  if (!start) throw new Error(`a ${element.type} takes no answer`)
  const field = Object.keys(start).find((key) => key !== 'type' && key !== 'timezone') ?? ''
  return { ...start, [field]: chosen(element, answer) }
}

function chosen(element: Element, answer: Answer): unknown {
  const list = answer === null ? [] : typeof answer === 'object' ? answer : [String(answer)]
  const one = list[0]
  switch (element.type) {
    case 'static_select':
    case 'radio_buttons':
      return one === undefined ? null : optionOf(element, one)
    case 'multi_static_select':
      if (list.length > (element.max_selected_items ?? Infinity))
        throw new Error(`at most ${element.max_selected_items} can be chosen`)
      return list.map((name) => optionOf(element, name))
    case 'checkboxes':
      return list.map((name) => optionOf(element, name))
    case 'multi_users_select':
      return list
    case 'datepicker':
      return one === undefined ? null : shaped(one, /^\d{4}-\d{2}-\d{2}$/)
    case 'timepicker':
      return one === undefined ? null : shaped(one, /^([01]\d|2[0-3]):[0-5]\d$/)
    case 'datetimepicker':
      return one === undefined ? null : Number(shaped(one, /^\d{10}$/))
    case 'rich_text_input':
      return one === undefined ? null : richText(one)
    case 'file_input':
      throw new Error('file_input is shown but cannot be filled here')
    default:
      return one === undefined || one === '' ? null : one
  }
}

export function optionsOf(element: Element): readonly Option[] {
  if (!('options' in element || 'option_groups' in element)) return []
  const groups = 'option_groups' in element ? (element.option_groups ?? []) : []
  return [...(element.options ?? []), ...groups.flatMap((group) => group.options)]
}

export function optionOf(element: Element, name: string): Option {
  const options = optionsOf(element)
  const found = options.find((o) => o.value === name) ?? options.find((o) => o.text.text === name)
  if (!found)
    throw new Error(`${name} is not offered; there is: ${options.map((o) => o.text.text).join(', ')}`)
  return found
}

function shaped(answer: string, shape: RegExp): string {
  if (!shape.test(answer)) throw new Error(`${answer} cannot be picked`)
  return answer
}

function richText(text: string) {
  const elements = [{ type: 'rich_text_section', elements: [{ type: 'text', text }] }]
  return { type: 'rich_text', elements }
}
