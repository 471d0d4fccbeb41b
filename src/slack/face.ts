import { WebAPIHTTPError, WebAPIPlatformError, WebAPIRateLimitedError, type WebClient } from '@slack/web-api'
import type { Notice } from '../chart/notices.ts'
import type { Team } from '../chart/roster.ts'
import type { Delivery, Face, Receipt, Told } from '../desk/ports.ts'
import { messageOf, opaque } from './render.ts'

/** Answers of the platform that no later try can change: the account or the channel is gone. */
const final = new Set([
  'channel_not_found',
  'user_not_found',
  'user_disabled',
  'users_not_found',
  'account_inactive',
  'is_archived',
  'cannot_dm_bot',
  'not_in_channel',
])

/**
 * The face towards the chat platform. `client` must neither retry nor queue by itself (retries 0, rate-limited
 * calls rejected, a timeout): the outbox does that, and a retry below it would say things twice.
 */
export function slackFace(client: WebClient): Face {
  const channels = new Map<string, string>()

  async function channelOf(notice: Notice, team: Team): Promise<string | undefined> {
    if ('place' in notice.to) return team.roster.coachesChannel
    const person = team.roster.people.get(notice.to.person)
    if (!person?.active) return undefined
    const known = channels.get(person.chatUser)
    if (known) return known
    const opened = await client.conversations.open({ users: person.chatUser })
    const channel = opened.channel?.id
    if (channel) channels.set(person.chatUser, channel)
    return channel
  }

  async function deliver(told: Told): Promise<Delivery> {
    const message = { ...messageOf(told), metadata: metadataOf(told.notice.key) }
    try {
      const channel = await channelOf(told.notice, told.team)
      if (!channel) return { failed: 'nobody to send it to', outcome: 'never' }
      const updated = told.receipt && (await update(told.receipt, message))
      if (updated) return { sent: updated }
      const posted = await client.chat.postMessage({ channel, ...message })
      return { sent: { channel, ts: String(posted.ts) } }
    } catch (error) {
      return failure(error)
    }
  }

  /** Undefined when the message is not there any more: then it is posted anew. */
  async function update(receipt: Receipt, message: object): Promise<Receipt | undefined> {
    try {
      await client.chat.update({ channel: receipt.channel, ts: receipt.ts, ...message } as never)
      return receipt
    } catch (error) {
      if (error instanceof WebAPIPlatformError && error.data.error === 'message_not_found') return undefined
      throw error
    }
  }

  async function find(told: Told): Promise<Receipt | 'absent' | 'unsure'> {
    try {
      const channel = await channelOf(told.notice, told.team)
      if (!channel) return 'absent'
      const oldest = String(Date.parse(told.notice.queuedAt) / 1000 - 60)
      const history = await client.conversations.history({
        channel,
        oldest,
        limit: 200,
        include_all_metadata: true,
      })
      const wanted = opaque(told.notice.key)
      const found = history.messages?.find(
        (m) => (m.metadata?.event_payload as { key?: unknown })?.key === wanted,
      )
      return found?.ts ? { channel, ts: found.ts } : 'absent'
    } catch {
      // Not an answer: whoever asked must not take it for one.
      return 'unsure'
    }
  }

  return { deliver, find }
}

function metadataOf(key: string) {
  return { event_type: 'sanderling_notice', event_payload: { key: opaque(key) } }
}

function failure(error: unknown): Delivery {
  if (error instanceof WebAPIRateLimitedError)
    return { failed: 'rate limited', outcome: 'not sent', retryAfterSeconds: error.retryAfter }
  if (error instanceof WebAPIPlatformError) {
    const code = error.data.error
    return { failed: code, outcome: final.has(code) ? 'never' : 'not sent' }
  }
  if (error instanceof WebAPIHTTPError) return { failed: `HTTP ${error.statusCode}`, outcome: 'unknown' }
  if (error instanceof Error && /ECONNREFUSED|ENOTFOUND/.test(`${error.message} ${String(error.cause)}`))
    return { failed: 'no connection', outcome: 'not sent' }
  return { failed: error instanceof Error ? error.name : 'no answer', outcome: 'unknown' }
}
