import type { AllMiddlewareArgs, BlockButtonAction, SlackActionMiddlewareArgs } from '@slack/bolt'
import type { Refusal } from '../rules/decision.ts'
import type { Modal } from './blocks.ts'
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
export async function say({ body, client, respond }: Pressed, words: string): Promise<void> {
  if (body.response_url) await respond(onlyYou(words))
  else await client.chat.postMessage({ channel: body.user.id, text: onlyYou(words).text })
}
