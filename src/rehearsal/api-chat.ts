import { z } from 'zod'
import { answer, json, method, type Refusal, refuse } from './api-method.ts'
import type { Block } from './block-limits.ts'
import type { Message } from './ledger.ts'
import { checkMessage, type MessageArguments, type Metadata } from './message-limits.ts'
import { messagePortrait } from './portraits.ts'
import type { Room } from './rooms.ts'
import type { World } from './world.ts'

const body = {
  text: z.string().optional(),
  blocks: json('invalid_blocks_format').optional(),
  metadata: json('invalid_metadata_format').optional(),
}

const postMessage = method({
  tier: 'posting',
  scopes: ['chat:write'],
  takes: z.object({
    channel: z.string().default(''),
    ...body,
    thread_ts: z.string().optional(),
  }),
  run(world, args) {
    const room = postable(world, args.channel)
    if ('ok' in room) return room
    const refused = refusal(world, args)
    if (refused) return refused
    const message = world.ledger.post({
      channel: room.id,
      from: world.identity.bot.user,
      text: args.text ?? '',
      blocks: (args.blocks ?? []) as Block[],
      ...(args.metadata !== undefined && {
        metadata: args.metadata as Metadata,
      }),
      ...(args.thread_ts && { threadTs: args.thread_ts }),
    })
    return answer({
      channel: room.id,
      ts: message.ts,
      message: messagePortrait(world, message),
    })
  },
})

const update = method({
  tier: 3,
  scopes: ['chat:write'],
  takes: z.object({ channel: z.string().default(''), ts: z.string(), ...body }),
  run(world, args) {
    const found = own(world, args.channel, args.ts, 'cant_update_message')
    if ('ok' in found) return found
    // Blocks and metadata that are not given stay; an empty list or object takes them away.
    const blocks = args.blocks ?? (args.text === undefined ? undefined : found.blocks)
    const cleared = isEmpty(args.metadata)
    const refused = refusal(world, {
      text: args.text,
      blocks,
      metadata: cleared ? undefined : args.metadata,
    })
    if (refused) return refused
    const message = world.ledger.rewrite(found, {
      text: args.text ?? '',
      blocks: (blocks ?? []) as Block[],
      metadata: cleared ? 'none' : ((args.metadata as Metadata | undefined) ?? 'kept'),
    })
    return answer({
      channel: message.channel,
      ts: message.ts,
      text: message.text,
      message: messagePortrait(world, message),
    })
  },
})

const remove = method({
  tier: 3,
  scopes: ['chat:write'],
  takes: z.object({ channel: z.string().default(''), ts: z.string() }),
  run(world, args) {
    const found = own(world, args.channel, args.ts, 'cant_delete_message')
    if ('ok' in found) return found
    world.ledger.strike(found)
    return answer({ channel: found.channel, ts: found.ts })
  },
})

const postEphemeral = method({
  tier: 4,
  scopes: ['chat:write'],
  takes: z.object({
    channel: z.string().default(''),
    user: z.string().default(''),
    ...body,
  }),
  run(world, args) {
    const room = postable(world, args.channel)
    if ('ok' in room) return room
    if (!room.members.includes(args.user)) return refuse('user_not_in_channel')
    const refused = refusal(world, args)
    if (refused) return refused
    const message = world.ledger.post({
      channel: room.id,
      from: world.identity.bot.user,
      text: args.text ?? '',
      blocks: (args.blocks ?? []) as Block[],
      ephemeralTo: args.user,
    })
    return answer({ message_ts: message.ts })
  },
})

const getPermalink = method({
  tier: 'hundreds',
  takes: z.object({ channel: z.string(), message_ts: z.string() }),
  run(world, args) {
    const message = standing(world, args.channel, args.message_ts)
    if ('ok' in message) return message
    const permalink = `${world.origin()}/archives/${args.channel}/p${args.message_ts.replace('.', '')}`
    return answer({ channel: args.channel, permalink })
  },
})

export const chatMethods = {
  'chat.postMessage': postMessage,
  'chat.update': update,
  'chat.delete': remove,
  'chat.postEphemeral': postEphemeral,
  'chat.getPermalink': getPermalink,
}

/** What refuses a message wherever it comes from: a method, an acknowledgement, a response address. */
export function refusal(world: World, message: MessageArguments): Refusal | undefined {
  const problems = checkMessage(message)
  const plainCodes = [
    'no_text',
    'msg_too_long',
    'msg_blocks_too_long',
    'metadata_too_large',
    'invalid_metadata_format',
  ]
  const plain = problems.find((p) => plainCodes.includes(p.code))
  if (problems.length > 0) return refuse(plain?.code ?? 'invalid_blocks', problems)
  const missing = world.shelf.unready((message.blocks ?? []) as unknown[])
  if (missing.length === 0) return undefined
  const words = `invalid slack file: ${missing.join(', ')}`
  return refuse('invalid_blocks', [{ pointer: '/blocks', code: 'invalid_slack_file', message: words }])
}

export function postable(world: World, id: string): Room | Refusal {
  const room = world.roster.find(id) ? world.rooms.direct([id]) : world.rooms.find(id)
  if (!room || (room.kind === 'private' && !room.bot)) return refuse('channel_not_found')
  if (!room.bot) return refuse('not_in_channel')
  return room.archived ? refuse('is_archived') : room
}

function standing(world: World, channel: string, ts: string): Message | Refusal {
  if (!world.rooms.find(channel)) return refuse('channel_not_found')
  const message = world.ledger.find(channel, ts)
  return message && message.ephemeralTo === undefined ? message : refuse('message_not_found')
}

function own(world: World, channel: string, ts: string, error: string): Message | Refusal {
  const message = standing(world, channel, ts)
  if ('ok' in message) return message
  return message.from === world.identity.bot.user ? message : refuse(error)
}

const isEmpty = (object: unknown) =>
  typeof object === 'object' && object !== null && Object.keys(object).length === 0
