import { z } from 'zod'
import * as element from './block-elements.ts'
import { dataTable, dataVisualization } from './block-figures.ts'
import { markdown, richText, table } from './block-prose.ts'
import { anyText, identifier, imageBlock, imageElement, plainText } from './block-texts.ts'

const block = { block_id: identifier.optional() }

const pickers = [
  element.checkboxes,
  element.radioButtons,
  element.staticSelect,
  element.multiStaticSelect,
  element.usersSelect,
  element.multiUsersSelect,
  element.channelsSelect,
  element.conversationsSelect,
  element.datepicker,
  element.timepicker,
] as const

const Interactive = z.discriminatedUnion('type', [
  ...pickers,
  element.button,
  element.overflow,
  element.datetimepicker,
])

const Accessory = z.discriminatedUnion('type', [...pickers, element.button, element.overflow, imageElement])

const Field = z.discriminatedUnion('type', [
  ...pickers,
  element.datetimepicker,
  element.plainTextInput,
  element.numberInput,
  element.emailInput,
  element.urlInput,
  element.richTextInput,
  element.fileInput,
])

const section = z
  .strictObject({
    type: z.literal('section'),
    ...block,
    text: anyText(3000).optional(),
    fields: z.array(anyText(2000)).min(1).max(10).optional(),
    accessory: Accessory.optional(),
    expand: z.boolean().optional(),
  })
  .refine((s) => s.text !== undefined || s.fields !== undefined, {
    message: 'a section needs text or fields',
    params: { code: 'missing' },
  })

const header = z.strictObject({
  type: z.literal('header'),
  ...block,
  text: plainText(150),
})
const divider = z.strictObject({ type: z.literal('divider'), ...block })
const remark = z.discriminatedUnion('type', [
  imageElement,
  plainText(3000),
  z.strictObject({
    type: z.literal('mrkdwn'),
    text: z.string().min(1).max(3000),
    verbatim: z.boolean().optional(),
  }),
])
const contextBlock = z.strictObject({
  type: z.literal('context'),
  ...block,
  elements: z.array(remark).min(1).max(10),
})
const actions = z.strictObject({
  type: z.literal('actions'),
  ...block,
  elements: z.array(Interactive).min(1).max(25),
})
const input = z.strictObject({
  type: z.literal('input'),
  ...block,
  label: plainText(2000),
  hint: plainText(2000).optional(),
  element: Field,
  optional: z.boolean().optional(),
  dispatch_action: z.boolean().optional(),
})
const alert = z.strictObject({
  type: z.literal('alert'),
  ...block,
  text: anyText(200),
  level: z.enum(['default', 'info', 'warning', 'error', 'success']).optional(),
})

/**
 * Every block that this workspace takes, with its sizes. Where two readings of a limit exist the smaller is
 * kept, so that what passes here passes there. Card, carousel, container, video, plan and the blocks of AI
 * apps are deliberately absent: where they may stand is not settled.
 */
export const Block = z.discriminatedUnion('type', [
  section,
  header,
  divider,
  contextBlock,
  actions,
  input,
  imageBlock,
  richText,
  markdown,
  table,
  dataTable,
  dataVisualization,
  alert,
])

export type Block = z.infer<typeof Block>
export type InputBlock = z.infer<typeof input>
export type Element = z.infer<typeof Interactive> | z.infer<typeof Accessory> | z.infer<typeof Field>
