import { z } from 'zod'
import { postable, refusal } from './api-chat.ts'
import { answer, json, method, refuse, whole } from './api-method.ts'
import type { Block } from './block-limits.ts'
import { readClock } from './clock.ts'
import { filePortrait } from './portraits.ts'
import type { StoredFile } from './shelf.ts'
import type { World } from './world.ts'

const maxAltText = 1000

const reserve = method({
  tier: 4,
  scopes: ['files:write'],
  takes: z.object({
    filename: z.string().min(1),
    length: whole,
    alt_txt: z.string().max(maxAltText).optional(),
    alt_text: z.string().max(maxAltText).optional(),
  }),
  run(world, { filename, length, alt_txt, alt_text }) {
    if (length === 0) return refuse('invalid_arguments')
    const altText = alt_txt ?? alt_text
    const file = world.shelf.reserve({ name: filename, lengthBytes: length, ...(altText && { altText }) })
    return answer({ upload_url: `${world.origin()}/upload/${file.id}`, file_id: file.id })
  },
})

const Completed = z.array(z.object({ id: z.string(), title: z.string().optional() })).min(1)

const complete = method({
  tier: 4,
  scopes: ['files:write'],
  takes: z.object({
    files: json(),
    channel_id: z.string().optional(),
    initial_comment: z.string().optional(),
    blocks: json('invalid_blocks_format').optional(),
    thread_ts: z.string().optional(),
  }),
  run(world, args) {
    const named = Completed.safeParse(args.files)
    if (!named.success) return refuse('invalid_arguments')
    const files = named.data.map(({ id }) => world.shelf.find(id))
    if (files.some((file) => file?.bytes === undefined)) return refuse('file_not_found')
    const room = args.channel_id ? postable(world, args.channel_id) : undefined
    if (room && 'ok' in room) return room
    // A comment wins over blocks.
    const blocks = args.initial_comment ? [] : ((args.blocks ?? []) as Block[])
    const refused = blocks.length > 0 ? refusal(world, { blocks }) : undefined
    if (refused) return refused
    const done = files.filter((file) => file !== undefined)
    const readyAtMs = readClock(world.clock) + world.faults.standing.fileProcessingSeconds * 1000
    for (const [i, file] of done.entries())
      Object.assign(file, { readyAtMs, title: named.data[i]?.title ?? file.title, channel: room?.id })
    if (room)
      world.ledger.post({
        channel: room.id,
        from: world.identity.bot.user,
        text: args.initial_comment ?? '',
        blocks,
        files: done.map((file) => file.id),
        ...(args.thread_ts && { threadTs: args.thread_ts }),
      })
    return answer({ files: done.map((file) => filePortrait(world, file)) })
  },
})

const describe = method({
  tier: 4,
  scopes: ['files:read'],
  takes: z.object({ file: z.string().default('') }),
  run(world, args) {
    const file = world.shelf.find(args.file)
    return file?.readyAtMs === undefined
      ? refuse('file_not_found')
      : answer({ file: filePortrait(world, file) })
  },
})

const remove = method({
  tier: 3,
  scopes: ['files:write'],
  takes: z.object({ file: z.string().default('') }),
  run: (world, args) => (world.shelf.remove(args.file) ? answer() : refuse('file_not_found')),
})

export const fileMethods = {
  'files.getUploadURLExternal': reserve,
  'files.completeUploadExternal': complete,
  'files.info': describe,
  'files.delete': remove,
}

/** The bytes of one reserved file, raw or as the one part of a form. */
export async function takeUpload(
  world: World,
  id: string,
  contentType: string,
  body: Buffer,
): Promise<{ readonly status: number; readonly body: string }> {
  const file = world.shelf.find(id)
  if (!file || file.bytes !== undefined) return { status: 404, body: 'no upload is expected here' }
  const bytes = contentType.startsWith('multipart/form-data') ? await firstPart(contentType, body) : body
  if (!bytes) return { status: 400, body: 'the form cannot be read' }
  if (bytes.length !== file.lengthBytes)
    return { status: 400, body: `${bytes.length} bytes came, ${file.lengthBytes} were announced` }
  file.bytes = bytes
  return { status: 200, body: `OK - ${bytes.length}` }
}

/** A stored picture, for whoever holds the bot's token. */
export function stored(world: World, id: string, token: string | undefined): StoredFile | undefined {
  return token === world.secrets.botToken ? world.shelf.find(id) : undefined
}

async function firstPart(contentType: string, body: Buffer): Promise<Buffer | undefined> {
  const response = new Response(new Uint8Array(body), { headers: { 'content-type': contentType } })
  try {
    const [part] = (await response.formData()).values()
    return part instanceof Blob ? Buffer.from(await part.arrayBuffer()) : Buffer.from(part ?? '')
  } catch {
    return undefined
  }
}
