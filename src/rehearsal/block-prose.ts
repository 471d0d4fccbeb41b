import { z } from 'zod'
import { identifier } from './block-texts.ts'

const block = { block_id: identifier.optional() }
const style = z
  .strictObject({
    bold: z.boolean().optional(),
    italic: z.boolean().optional(),
    strike: z.boolean().optional(),
    underline: z.boolean().optional(),
    code: z.boolean().optional(),
  })
  .optional()

const inline = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('text'), text: z.string().min(1), style }),
  z.strictObject({
    type: z.literal('link'),
    url: z.string().min(1),
    text: z.string().optional(),
    style,
  }),
  z.strictObject({ type: z.literal('emoji'), name: z.string().min(1), style }),
  z.strictObject({ type: z.literal('user'), user_id: z.string(), style }),
  z.strictObject({ type: z.literal('channel'), channel_id: z.string(), style }),
  z.strictObject({
    type: z.literal('usergroup'),
    usergroup_id: z.string(),
    style,
  }),
  z.strictObject({
    type: z.literal('broadcast'),
    range: z.enum(['here', 'channel', 'everyone']),
    style,
  }),
  z.strictObject({
    type: z.literal('date'),
    timestamp: z.number(),
    format: z.string(),
    url: z.string().optional(),
    fallback: z.string().optional(),
    style,
  }),
])

const border = z.union([z.literal(0), z.literal(1)]).optional()
const paragraph = z.strictObject({
  type: z.literal('rich_text_section'),
  elements: z.array(inline),
})

export const richText = z.strictObject({
  type: z.literal('rich_text'),
  ...block,
  elements: z
    .array(
      z.discriminatedUnion('type', [
        paragraph,
        z.strictObject({
          type: z.literal('rich_text_list'),
          style: z.enum(['bullet', 'ordered']),
          indent: z.number().int().min(0).max(8).optional(),
          offset: z.number().int().min(0).optional(),
          border,
          elements: z.array(paragraph).min(1),
        }),
        z.strictObject({
          type: z.literal('rich_text_quote'),
          border,
          elements: z.array(inline),
        }),
        z.strictObject({
          type: z.literal('rich_text_preformatted'),
          border,
          language: z.string().optional(),
          elements: z.array(inline),
        }),
      ]),
    )
    .min(1),
})

export const rawText = z.strictObject({
  type: z.literal('raw_text'),
  text: z.string().min(1),
})
export const rawNumber = z.strictObject({
  type: z.literal('raw_number'),
  value: z.number(),
  text: z.string().min(1),
})

export const table = z.strictObject({
  type: z.literal('table'),
  ...block,
  rows: z
    .array(
      z
        .array(z.discriminatedUnion('type', [rawText, rawNumber, richText]))
        .min(1)
        .max(20),
    )
    .min(1)
    .max(100),
  column_settings: z
    .array(
      z
        .strictObject({
          align: z.enum(['left', 'center', 'right']).optional(),
          is_wrapped: z.boolean().optional(),
        })
        .nullable(),
    )
    .max(20)
    .optional(),
})

export const markdown = z.strictObject({
  type: z.literal('markdown'),
  ...block,
  text: z.string().min(1).max(12_000),
})
