import type { App, Logger, Receiver, ReceiverEvent } from '@slack/bolt'
import { keptFirst } from './kept-first.ts'

type Delivered = {
  readonly type?: unknown
  readonly command?: unknown
  readonly view?: { readonly blocks?: readonly { readonly type?: unknown; readonly block_id?: unknown }[] }
}

const words = 'This could not be understood. Please open it again, and look whether it was saved.'

/**
 * Sees to it that every delivery is answered. The framework leaves what it does not know, and what breaks a listener,
 * without an answer until three seconds are over: whoever pressed something sees it hang, and whoever sends rubbish
 * keeps connections busy.
 */
export function answerEverything(receiver: Receiver, log: Logger): void {
  const init = receiver.init.bind(receiver)
  receiver.init = (app) => init(Object.create(app, { processEvent: { value: answering(app, log) } }))
}

function answering(app: App, log: Logger) {
  return async (event: ReceiverEvent): Promise<void> => {
    let answered = false
    const ack: ReceiverEvent['ack'] = async (response) => {
      answered = true
      await event.ack(response)
    }
    const { event: delivered, kept } = keptFirst({ ...event, ack })
    try {
      await app.processEvent(delivered)
    } catch (error) {
      // The framework itself trips over some bodies that no platform would send.
      log.warn(`A delivery could not be read: ${error instanceof Error ? error.name : 'unknown'}`)
    }
    if (!answered && kept()) await event.ack(refusalOf(event.body as Delivered))
  }
}

/** An empty answer would close a form as if it had been saved. */
function refusalOf({ type, command, view }: Delivered) {
  if (command !== undefined) return { response_type: 'ephemeral' as const, text: words }
  if (type === 'view_submission') {
    const blocks = Array.isArray(view?.blocks) ? view.blocks : []
    const field = blocks.find((block) => block?.type === 'input')?.block_id
    return {
      response_action: 'errors' as const,
      errors: { [typeof field === 'string' ? field : 'form']: words },
    }
  }
  return undefined
}
