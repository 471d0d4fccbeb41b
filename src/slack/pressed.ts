import {
  type AllMiddlewareArgs,
  type BlockButtonAction,
  RespondError,
  type SlackActionMiddlewareArgs,
} from '@slack/bolt'
import type { Refusal } from '../rules/decision.ts'
import type { Message, Modal } from './blocks.ts'
import { onlyYou } from './only-you.ts'
import { openForm } from './opening.ts'

export type Pressed = SlackActionMiddlewareArgs<BlockButtonAction> & AllMiddlewareArgs

/** Over the chart when it was pressed there, by itself when it was pressed on a message or the Home. */
export async function showForm(pressed: Pressed, view: Modal): Promise<void> {
  const { body, client } = pressed
  const push = body.view?.type === 'modal'
  await openForm(client, { trigger: body.trigger_id, push }, view, (words) => say(pressed, words))
}

/** In the place of the screen in front, or by itself. */
export async function showScreen(pressed: Pressed, view: Modal): Promise<void> {
  const { body, client } = pressed
  if (body.view?.type === 'modal') await client.views.update({ view_id: body.view.id, view })
  else await showForm(pressed, view)
}

export async function refuse(pressed: Pressed, { words }: Refusal): Promise<void> {
  await pressed.ack()
  await say(pressed, words)
}

/** A press on a message is answered there; on a form or the Home it comes as a message. */
export async function say(pressed: Pressed, words: string): Promise<void> {
  const { body } = pressed
  const { text } = onlyYou(words)
  const post = () => pressed.client.chat.postMessage({ channel: body.user.id, text })
  if (body.response_url) await answerThere(pressed, onlyYou(words), post)
  else await post()
}

/** In the place of the message that was pressed; as a new one when that place is gone. */
export async function replace(pressed: Pressed, message: Message): Promise<void> {
  await answerThere(pressed, { replace_original: true, ...message }, () =>
    pressed.client.chat.postMessage({ channel: pressed.body.user.id, ...message }),
  )
}

/** The way back to a press is good for half an hour and five answers; whoever pressed is answered all the same. */
async function answerThere(
  { respond }: Pressed,
  answer: Parameters<Pressed['respond']>[0],
  otherwise: () => Promise<unknown>,
): Promise<void> {
  try {
    await respond(answer)
  } catch (error) {
    if (!(error instanceof RespondError)) throw error
    await otherwise()
  }
}
