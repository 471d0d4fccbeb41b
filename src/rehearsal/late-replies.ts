import { refusal } from './api-chat.ts'
import { type Refusal, refuse } from './api-method.ts'
import type { Block } from './block-limits.ts'
import type { Message } from './ledger.ts'
import type { ReplyTarget } from './response-urls.ts'
import type { World } from './world.ts'

/** What an acknowledgement or a response address may carry. */
export type Reply = {
  readonly text?: unknown
  readonly blocks?: unknown
  readonly response_type?: unknown
  readonly replace_original?: unknown
  readonly delete_original?: unknown
}

/** A reply to a response address: status and body as the platform answers them. */
export function takeReply(world: World, id: string, reply: Reply): { status: number; body: string } {
  const target = world.responseUrls.use(id)
  if ('refused' in target) return { status: 404, body: JSON.stringify(refuse(target.refused)) }
  const shown = showReply(world, target, reply)
  return 'ok' in shown ? { status: 400, body: JSON.stringify(shown) } : { status: 200, body: 'ok' }
}

/**
 * Puts a reply where it belongs: only for this person unless it says in_channel, or in place of the message
 * that was pressed.
 */
export function showReply(world: World, target: ReplyTarget, reply: Reply): Message | Refusal {
  const original = target.messageTs ? world.ledger.find(target.channel, target.messageTs) : undefined
  if (reply.delete_original === true) {
    if (!original) return refuse('message_not_found')
    world.ledger.strike(original)
    return original
  }
  const refused = refusal(world, reply)
  if (refused) return refused
  const text = typeof reply.text === 'string' ? reply.text : ''
  const blocks = (reply.blocks ?? []) as Block[]
  if (reply.replace_original === true)
    return original
      ? world.ledger.rewrite(original, { text, blocks, metadata: 'kept' })
      : refuse('message_not_found')
  return world.ledger.post({
    channel: target.channel,
    from: world.identity.bot.user,
    text,
    blocks,
    ...(reply.response_type !== 'in_channel' && { ephemeralTo: target.person }),
  })
}
