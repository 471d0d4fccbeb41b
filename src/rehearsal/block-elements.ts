import { z } from 'zod'
import { anyText, identifier, plainText } from './block-texts.ts'

const confirm = z.strictObject({
  title: plainText(100),
  text: anyText(300),
  confirm: plainText(30),
  deny: plainText(30),
  style: z.enum(['primary', 'danger']).optional(),
})

const named = { action_id: identifier.optional() }
const asked = { ...named, confirm: confirm.optional() }
const focused = { focus_on_load: z.boolean().optional() }
const hinted = { ...focused, placeholder: plainText(150).optional() }

const optionFields = {
  value: z.string().min(1).max(75),
  description: anyText(75).optional(),
}
const option = z.strictObject({ text: anyText(75), ...optionFields })
const plainOption = z.strictObject({
  text: plainText(75),
  value: optionFields.value,
  description: plainText(75).optional(),
})
const linkedOption = z.strictObject({
  ...plainOption.shape,
  url: z.string().max(3000).optional(),
})
export type Option = z.infer<typeof option>

const chosen = (max: number) => ({
  options: z.array(option).min(1).max(max),
})
const menu = {
  ...asked,
  ...hinted,
  options: z.array(plainOption).min(1).max(100).optional(),
  option_groups: z
    .array(
      z.strictObject({
        label: plainText(75),
        options: z.array(plainOption).min(1).max(100),
      }),
    )
    .min(1)
    .max(100)
    .optional(),
}
const several = { max_selected_items: z.number().int().min(1).optional() }

type Menu = { options?: unknown; option_groups?: unknown }
const oneList = (m: Menu) => (m.options === undefined) !== (m.option_groups === undefined)
const oneListWords = {
  message: 'exactly one of options and option_groups',
  params: { code: 'invalid_options' },
}

export const button = z.strictObject({
  type: z.literal('button'),
  ...asked,
  text: plainText(75),
  value: z.string().max(2000).optional(),
  url: z.string().max(3000).optional(),
  style: z.enum(['primary', 'danger']).optional(),
  accessibility_label: z.string().max(75).optional(),
})

export const overflow = z.strictObject({
  type: z.literal('overflow'),
  ...asked,
  options: z.array(linkedOption).min(1).max(5),
})

export const checkboxes = z.strictObject({
  type: z.literal('checkboxes'),
  ...asked,
  ...focused,
  ...chosen(10),
  initial_options: z.array(option).min(1).optional(),
})

export const radioButtons = z.strictObject({
  type: z.literal('radio_buttons'),
  ...asked,
  ...focused,
  ...chosen(10),
  initial_option: option.optional(),
})

export const staticSelect = z
  .strictObject({
    type: z.literal('static_select'),
    ...menu,
    initial_option: plainOption.optional(),
  })
  .refine(oneList, oneListWords)

export const multiStaticSelect = z
  .strictObject({
    type: z.literal('multi_static_select'),
    ...menu,
    ...several,
    initial_options: z.array(plainOption).min(1).optional(),
  })
  .refine(oneList, oneListWords)

const directory = {
  ...asked,
  ...hinted,
  response_url_enabled: z.boolean().optional(),
}
const ids = z.array(z.string()).min(1).optional()

export const usersSelect = z.strictObject({
  type: z.literal('users_select'),
  ...asked,
  ...hinted,
  initial_user: z.string().optional(),
})
export const multiUsersSelect = z.strictObject({
  type: z.literal('multi_users_select'),
  ...asked,
  ...hinted,
  ...several,
  initial_users: ids,
})
export const channelsSelect = z.strictObject({
  type: z.literal('channels_select'),
  ...directory,
  initial_channel: z.string().optional(),
})
export const conversationsSelect = z.strictObject({
  type: z.literal('conversations_select'),
  ...directory,
  initial_conversation: z.string().optional(),
  default_to_current_conversation: z.boolean().optional(),
  filter: z.looseObject({}).optional(),
})

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/)

export const datepicker = z.strictObject({
  type: z.literal('datepicker'),
  ...asked,
  ...hinted,
  initial_date: day.optional(),
})
export const timepicker = z.strictObject({
  type: z.literal('timepicker'),
  ...asked,
  ...hinted,
  initial_time: timeOfDay.optional(),
  timezone: z.string().optional(),
})
export const datetimepicker = z.strictObject({
  type: z.literal('datetimepicker'),
  ...asked,
  ...focused,
  initial_date_time: z.number().int().min(1_000_000_000).max(9_999_999_999).optional(),
})

const dispatch = {
  dispatch_action_config: z
    .strictObject({
      trigger_actions_on: z.array(z.enum(['on_enter_pressed', 'on_character_entered'])).min(1),
    })
    .optional(),
}

export const plainTextInput = z.strictObject({
  type: z.literal('plain_text_input'),
  ...named,
  ...hinted,
  ...dispatch,
  initial_value: z.string().optional(),
  multiline: z.boolean().optional(),
  min_length: z.number().int().min(0).max(3000).optional(),
  max_length: z.number().int().min(1).max(3000).optional(),
})

/** The limits of a number are strings, and so is what it submits. */
const numeral = z.string().regex(/^-?\d+(\.\d+)?$/)
export const numberInput = z
  .strictObject({
    type: z.literal('number_input'),
    ...named,
    ...hinted,
    ...dispatch,
    is_decimal_allowed: z.boolean(),
    initial_value: numeral.optional(),
    min_value: numeral.optional(),
    max_value: numeral.optional(),
  })
  .refine((n) => Number(n.min_value ?? -Infinity) <= Number(n.max_value ?? Infinity), {
    message: 'min_value is above max_value',
  })

const address = {
  ...named,
  ...hinted,
  ...dispatch,
  initial_value: z.string().optional(),
}
export const emailInput = z.strictObject({
  type: z.literal('email_text_input'),
  ...address,
})
export const urlInput = z.strictObject({
  type: z.literal('url_text_input'),
  ...address,
})

export const richTextInput = z.strictObject({
  type: z.literal('rich_text_input'),
  ...named,
  ...hinted,
  ...dispatch,
  initial_value: z.looseObject({ type: z.literal('rich_text') }).optional(),
  min_lines: z.number().int().min(1).max(100).optional(),
  max_lines: z.number().int().min(1).max(100).optional(),
})

export const fileInput = z.strictObject({
  type: z.literal('file_input'),
  ...named,
  filetypes: z.array(z.string()).min(1).optional(),
  max_files: z.number().int().min(1).max(10).optional(),
})
