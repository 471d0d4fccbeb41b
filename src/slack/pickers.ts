import type { KnownBlock, Option } from '@slack/types'
import { type InputSpec, input, option, plain } from './blocks.ts'

/** One line of text. */
export function lineInput(
  spec: InputSpec & { readonly initial?: string | undefined; readonly most?: number },
) {
  return input(spec, {
    type: 'plain_text_input',
    max_length: spec.most ?? 100,
    ...(spec.initial ? { initial_value: spec.initial } : {}),
  })
}

/** A person of the workspace, by account: it has no limit of a hundred, as a list of ours would have. */
export function personPicker(spec: InputSpec, initial?: string): KnownBlock {
  return input(spec, { type: 'users_select', ...(initial ? { initial_user: initial } : {}) })
}

export function peoplePicker(spec: InputSpec, initial: readonly string[] = []): KnownBlock {
  return input(spec, {
    type: 'multi_users_select',
    ...(initial.length > 0 ? { initial_users: initial } : {}),
  })
}

export function channelPicker(spec: InputSpec, initial?: string): KnownBlock {
  return input(spec, {
    type: 'conversations_select',
    filter: { include: ['public', 'private'], exclude_bot_users: true },
    ...(initial ? { initial_conversation: initial } : {}),
  })
}

export function dayPicker(spec: InputSpec, initial?: string): KnownBlock {
  return input(spec, { type: 'datepicker', ...(initial ? { initial_date: initial } : {}) })
}

export function timePicker(spec: InputSpec, initial?: string): KnownBlock {
  return input(spec, { type: 'timepicker', ...(initial ? { initial_time: initial } : {}) })
}

/** One of a few, with one chosen already. */
export function radioFrom(spec: InputSpec, options: readonly Option[], initial?: string): KnownBlock {
  const chosen = options.find((one) => 'value' in one && one.value === initial)
  return input(spec, { type: 'radio_buttons', options, ...(chosen ? { initial_option: chosen } : {}) })
}

/** One of up to a hundred, with one chosen already. */
export function selectFrom(spec: InputSpec, options: readonly Option[], initial?: string): KnownBlock {
  const chosen = options.find((one) => 'value' in one && one.value === initial)
  return input(spec, {
    type: 'static_select',
    options: options.slice(0, 100),
    ...(chosen ? { initial_option: chosen } : {}),
  })
}

/** Several of up to a hundred. */
export function manyFrom(spec: InputSpec, options: readonly Option[]): KnownBlock {
  return input(spec, { type: 'multi_static_select', options: options.slice(0, 100) })
}

export function boxesFrom(spec: InputSpec, options: readonly Option[], initial: readonly string[] = []) {
  const chosen = options.filter((one) => 'value' in one && initial.includes(String(one.value)))
  return input(spec, {
    type: 'checkboxes',
    options,
    ...(chosen.length > 0 ? { initial_options: chosen } : {}),
  })
}

/** The same words as value and label. */
export function optionsOf(words: readonly string[]): Option[] {
  return words.map((word) => option(word, word))
}

/** A line with one button at its end. */
export function lineWithButton(
  markup: string,
  button: { readonly does: string; readonly label: string; readonly value: string },
): KnownBlock {
  return {
    type: 'section',
    text: { type: 'mrkdwn', text: markup.slice(0, 3000) },
    accessory: {
      type: 'button',
      action_id: button.does,
      text: plain(button.label, 75),
      value: button.value,
    },
  }
}
