import { WebAPIHTTPError, WebAPIPlatformError, WebAPIRateLimitedError, type WebClient } from '@slack/web-api'
import type { Notice } from '../chart/notices.ts'
import type { Team } from '../chart/roster.ts'
import type { SetUpCard } from '../chart/set-up-card.ts'
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

/** The platform's clock and ours may be a day apart when somebody has set ours wrongly. */
const clockDoubtSeconds = 25 * 3600
const mostPages = 10

/**
 * The face towards the chat platform. `client` must neither retry nor queue by itself (retries 0, rate-limited
 * calls rejected, a timeout): the outbox does that, and a retry below it would say things twice.
 */
export function slackFace(client: WebClient, card: SetUpCard): Face {
  /** Conversations by whom they are with. */
  const channels = new Map<string, string>()

  async function deliver(told: Told): Promise<Delivery> {
    const message = { ...messageOf(told, card), metadata: metadataOf(told.notice.key) }
    try {
      const to = addressOf(told.notice, told.team)
      if (!to) return { failed: 'nobody to send it to', outcome: 'never' }
      const updated = told.receipt && (await update(told.receipt, message))
      if (updated) return { sent: updated }
      const posted = await client.chat.postMessage({ channel: to, ...message })
      const channel = posted.channel ?? to
      channels.set(to, channel)
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

  async function find({ notice, team }: Told): Promise<Receipt | 'absent' | 'unsure'> {
    try {
      const to = addressOf(notice, team)
      if (!to) return 'absent'
      if ('person' in notice.to && !channels.has(to)) {
        const opened = await client.conversations.open({ users: to })
        channels.set(to, opened.channel?.id ?? to)
      }
      return await search(channels.get(to) ?? to, notice)
    } catch {
      // Not an answer: whoever asked must not take it for one.
      return 'unsure'
    }
  }

  /** Newest first, back to before it can have gone out; `unsure` when the channel is too busy to read so far. */
  async function search(channel: string, { key, queuedAt }: Notice): Promise<Receipt | 'absent' | 'unsure'> {
    const wanted = opaque(key)
    const oldest = String(Date.parse(queuedAt) / 1000 - clockDoubtSeconds)
    let cursor: string | undefined
    for (let page = 0; page < mostPages; page += 1) {
      const history = await client.conversations.history({
        channel,
        oldest,
        limit: 200,
        include_all_metadata: true,
        ...(cursor ? { cursor } : {}),
      })
      const found = history.messages?.find(
        (m) => (m.metadata?.event_payload as { key?: unknown })?.key === wanted,
      )
      if (found?.ts) return { channel, ts: found.ts }
      cursor = history.response_metadata?.next_cursor
      if (!cursor) return 'absent'
    }
    return 'unsure'
  }

  return { deliver, find }
}

/**
 * Where to post: a person is addressed by account, which needs no call to open the conversation first. Opening is
 * limited to fifty a minute: ten thousand first messages would take hours.
 */
function addressOf(notice: Notice, team: Team): string | undefined {
  if ('place' in notice.to) return team.roster.coachesChannel
  const person = team.roster.people.get(notice.to.person)
  return person?.active ? person.chatUser : undefined
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
    return { failed: 'no connection', outcome: 'not sent', retryAfterSeconds: 5 }
  return { failed: error instanceof Error ? error.name : 'no answer', outcome: 'unknown' }
}
