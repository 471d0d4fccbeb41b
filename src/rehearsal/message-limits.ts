import { z } from 'zod'
import { checkBlocks, textLength } from './block-surfaces.ts'
import { type Problem, problem, problemsOf } from './problems.ts'

const maxText = 40_000
/** Not documented; refusals were seen from about 13,170 characters on. */
const maxSummed = 13_000
const maxMetadataBytes = 16_000

const scalar = z.union([z.string(), z.number(), z.boolean()])
export const Metadata = z.strictObject({
  event_type: z.string().min(1).max(255),
  event_payload: z.record(z.string(), z.union([scalar, z.array(scalar), z.record(z.string(), scalar)])),
})
export type Metadata = z.infer<typeof Metadata>

export type MessageArguments = {
  readonly text?: unknown
  readonly blocks?: unknown
  readonly metadata?: unknown
}

/**
 * Every reason for which this message would be refused, as blocks.validate would list it. Needs no workspace:
 * what only a workspace knows (channels, files) is refused by the method that posts.
 */
export function checkMessage(message: MessageArguments): Problem[] {
  return [...checkText(message), ...checkBody(message.blocks), ...checkMetadata(message.metadata)]
}

function checkText({ text, blocks }: MessageArguments): Problem[] {
  const empty = text === undefined || text === ''
  const bare = blocks === undefined || (Array.isArray(blocks) && blocks.length === 0)
  if (empty && bare) return [problem(['text'], 'no_text', 'a message needs text or blocks')]
  if (!empty && typeof text !== 'string') return [problem(['text'], 'invalid_type', 'text is a string')]
  if (typeof text === 'string' && text.length > maxText)
    return [problem(['text'], 'msg_too_long', `${text.length} characters, at most ${maxText}`)]
  return []
}

function checkBody(blocks: unknown): Problem[] {
  if (blocks === undefined) return []
  const length = textLength(blocks)
  return [
    ...checkBlocks(blocks, 'message'),
    ...(length > maxSummed
      ? [problem(['blocks'], 'msg_blocks_too_long', `${length} characters, at most ${maxSummed}`)]
      : []),
  ]
}

function checkMetadata(metadata: unknown): Problem[] {
  if (metadata === undefined) return []
  const parsed = Metadata.safeParse(metadata, { reportInput: true })
  if (!parsed.success)
    return problemsOf(parsed, ['metadata']).map((p) => ({
      ...p,
      code: 'invalid_metadata_format',
    }))
  const bytes = Buffer.byteLength(JSON.stringify(metadata))
  return bytes > maxMetadataBytes
    ? [problem(['metadata'], 'metadata_too_large', `${bytes} bytes, at most ${maxMetadataBytes}`)]
    : []
}
