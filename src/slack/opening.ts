import type { WebClient } from '@slack/web-api'
import { WebAPIPlatformError } from '@slack/web-api'
import type { Modal } from './blocks.ts'

/** What the platform says of a trigger that is used up or too old: three seconds, once. */
const tooLate = new Set([
  'expired_trigger_id',
  'trigger_expired',
  'exchanged_trigger_id',
  'trigger_exchanged',
])

type Where = { readonly trigger: string; readonly push?: boolean }

/** Opens a form, or lays it over the one in front. A trigger that is too old is told to whoever pressed. */
export async function openForm(
  client: WebClient,
  { trigger, push }: Where,
  view: Modal,
  say: (words: string) => Promise<unknown>,
): Promise<void> {
  try {
    if (push) await client.views.push({ trigger_id: trigger, view })
    else await client.views.open({ trigger_id: trigger, view })
  } catch (error) {
    if (!(error instanceof WebAPIPlatformError) || !tooLate.has(error.data.error)) throw error
    await say('That took too long, and nothing was changed. Please try again.').catch(() => {
      // The way back is gone too: the person sees nothing open and tries again.
    })
  }
}
