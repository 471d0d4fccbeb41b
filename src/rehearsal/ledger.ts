import type { Block } from './block-limits.ts'
import { type Clock, readClock } from './clock.ts'
import type { Metadata } from './message-limits.ts'

export type Message = {
  readonly ts: string
  readonly channel: string
  /** The bot or a person. */
  readonly from: string
  readonly text: string
  readonly blocks: readonly Block[]
  readonly metadata?: Metadata
  readonly threadTs?: string
  /** Ids of files that hang on it. */
  readonly files?: readonly string[]
  readonly edited?: { readonly ts: string }
  /** Only this person sees it, and no history holds it. */
  readonly ephemeralTo?: string
}

export type Draft = Omit<Message, 'ts' | 'blocks'> & {
  readonly blocks?: readonly Block[]
}

export type Ledger = {
  stamp(): string
  post(draft: Draft): Message
  find(channel: string, ts: string): Message | undefined
  rewrite(
    message: Message,
    to: Pick<Message, 'text' | 'blocks'> & {
      readonly metadata: Metadata | 'kept' | 'none'
    },
  ): Message
  strike(message: Message): void
  /** Oldest first, ephemeral ones included. */
  inRoom(channel: string): readonly Message[]
}

/** Every message there is. Stamps are the clock's seconds and never repeat. */
export function openLedger(clock: Clock): Ledger {
  const rooms = new Map<string, Message[]>()
  let last = 0n
  const room = (channel: string) => {
    const messages = rooms.get(channel) ?? []
    rooms.set(channel, messages)
    return messages
  }
  const stamp = () => {
    const micros = BigInt(readClock(clock)) * 1000n
    last = micros > last ? micros : last + 1n
    return `${last / 1_000_000n}.${String(last % 1_000_000n).padStart(6, '0')}`
  }
  return {
    stamp,
    post(draft) {
      const ts = stamp()
      const message = {
        ...draft,
        ts,
        blocks: withBlockIds(draft.blocks ?? []),
      }
      room(draft.channel).push(message)
      return message
    },
    find: (channel, ts) => room(channel).find((m) => m.ts === ts),
    rewrite(message, to) {
      const { metadata, ...kept } = message
      const metadataAfter = to.metadata === 'kept' ? metadata : to.metadata
      const after: Message = {
        ...kept,
        text: to.text,
        blocks: withBlockIds(to.blocks),
        ...(metadataAfter && metadataAfter !== 'none' && { metadata: metadataAfter }),
        edited: { ts: stamp() },
      }
      const messages = room(message.channel)
      messages[messages.findIndex((m) => m.ts === message.ts)] = after
      return after
    },
    strike(message) {
      const messages = room(message.channel)
      const at = messages.findIndex((m) => m.ts === message.ts)
      if (at >= 0) messages.splice(at, 1)
    },
    inRoom: (channel) => room(channel),
  }
}

let given = 0

/** Blocks and elements that came without an id get one, as the platform does. */
export function withBlockIds(blocks: readonly Block[]): Block[] {
  const id = () => (++given).toString(36).padStart(5, '0')
  const named = <T extends object>(element: T): T =>
    'type' in element && !('action_id' in element) && element.type !== 'image' && element.type !== 'mrkdwn'
      ? { ...element, action_id: id() }
      : element
  return blocks.map((block) => {
    const block_id = block.block_id ?? id()
    if (block.type === 'actions') return { ...block, block_id, elements: block.elements.map(named) }
    if (block.type === 'input') return { ...block, block_id, element: named(block.element) }
    if (block.type === 'section' && block.accessory)
      return { ...block, block_id, accessory: named(block.accessory) }
    return { ...block, block_id }
  })
}
