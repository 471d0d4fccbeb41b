import type { AuthorizeResult } from '@slack/bolt'
import { WebAPIPlatformError, type WebClient } from '@slack/web-api'

/** Who the bot is in its workspace. */
export type Identity = { readonly bot: AuthorizeResult; readonly workspace: string }

/**
 * Asks the platform once who the token belongs to, and keeps the answer. A platform that cannot be reached is asked
 * again with the next delivery: it must not keep the rounds from running.
 */
export function identityOf(client: WebClient, botToken: string): () => Promise<Identity> {
  let known: Identity | undefined
  return async () => {
    if (known) return known
    const { bot_id, user_id, team_id, team } = await client.auth.test()
    known = {
      bot: {
        botToken,
        ...(bot_id ? { botId: bot_id } : {}),
        ...(user_id ? { botUserId: user_id } : {}),
        ...(team_id ? { teamId: team_id } : {}),
      },
      workspace: team ?? 'the workspace',
    }
    return known
  }
}

/** The token is refused for good: no later try can change that. */
export class TokenRefused extends Error {
  override readonly name = 'TokenRefused'
}

/** The name of the workspace; undefined when the platform cannot be reached now. Throws `TokenRefused`. */
export async function workspaceName(identity: () => Promise<Identity>): Promise<string | undefined> {
  try {
    return (await identity()).workspace
  } catch (error) {
    if (error instanceof WebAPIPlatformError)
      throw new TokenRefused(
        `SLACK_BOT_TOKEN is refused by the platform (${error.data.error}). Install the app again and copy the bot token anew.`,
      )
    return undefined
  }
}
