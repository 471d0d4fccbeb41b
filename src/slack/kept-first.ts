import type { Context, ReceiverEvent } from '@slack/bolt'

const key = 'refuseAck'

/**
 * A message carries words that must not get lost, and the framework acknowledges events before anybody has read them.
 * Its acknowledgement is held back here until the listener is done; when the listener says that nothing was kept, there
 * is none, and the platform delivers the message again.
 */
export function keptFirst(event: ReceiverEvent): {
  readonly event: ReceiverEvent
  readonly kept: () => boolean
} {
  if (!carriesMessage(event.body)) return { event, kept: () => true }
  let refused = false
  const refuse = () => {
    refused = true
  }
  const customProperties = { ...event.customProperties, [key]: refuse }
  return { event: { ...event, ack: async () => {}, customProperties }, kept: () => !refused }
}

/** For the listener of a message: `refuse` when its words could not be kept. */
export function holdsAck(context: Context): { readonly refuse: () => void } {
  const refuse: unknown = context[key]
  return { refuse: typeof refuse === 'function' ? () => refuse() : () => {} }
}

function carriesMessage(body: Record<string, unknown>): boolean {
  const event = body.event as { readonly type?: unknown } | null | undefined
  return body.type === 'event_callback' && event?.type === 'message'
}
