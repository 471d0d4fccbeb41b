import { z } from 'zod'

/** Text objects. The empty string is refused everywhere; `max` is the limit of the place the text stands in. */
export const plainText = (max = 3000) =>
  z.strictObject({
    type: z.literal('plain_text'),
    text: z.string().min(1).max(max),
    emoji: z.boolean().optional(),
  })

const mrkdwn = (max = 3000) =>
  z.strictObject({
    type: z.literal('mrkdwn'),
    text: z.string().min(1).max(max),
    verbatim: z.boolean().optional(),
  })

export const anyText = (max = 3000) => z.discriminatedUnion('type', [plainText(max), mrkdwn(max)])

export const identifier = z.string().min(1).max(255)

/** A picture is named by address or by a file of the workspace, never by both. */
const picture = {
  image_url: z.string().min(1).max(3000).optional(),
  slack_file: z
    .strictObject({ id: z.string().optional(), url: z.string().optional() })
    .refine((file) => (file.id === undefined) !== (file.url === undefined), {
      message: 'slack_file takes exactly one of id and url',
      params: { code: 'invalid_slack_file' },
    })
    .optional(),
  alt_text: z.string().min(1).max(2000),
}

type Pictured = { image_url?: string | undefined; slack_file?: unknown }

const onePicture = (image: Pictured) => (image.image_url === undefined) !== (image.slack_file === undefined)
const onePictureWords = {
  message: 'exactly one of image_url and slack_file',
  params: { code: 'invalid_image' },
}

export const imageElement = z
  .strictObject({ type: z.literal('image'), ...picture })
  .refine(onePicture, onePictureWords)

export const imageBlock = z
  .strictObject({
    type: z.literal('image'),
    block_id: identifier.optional(),
    title: plainText(2000).optional(),
    ...picture,
  })
  .refine(onePicture, onePictureWords)
