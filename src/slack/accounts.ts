import type { WebClient } from '@slack/web-api'
import { type Instant, minutesBetween } from '../chart/day.ts'

/** What the workspace says of an account. A stranger comes from a connected workspace. */
export type Account = {
  readonly standing: 'member' | 'guest' | 'deactivated' | 'stranger' | 'bot'
  readonly name: string
  readonly timeZone: string | undefined
}

export type Accounts = {
  /** Undefined when the workspace cannot be asked now and was not asked lately. Never throws. */
  look(account: string, now: Instant): Promise<Account | undefined>
}

const freshMinutes = 5
/** An older answer still counts while the workspace cannot be asked: an outage must not shut people out. */
const usableMinutes = 24 * 60
/** A door has three seconds to answer. */
const patienceMs = 1000

/** Asks the workspace who an account is, and remembers the answer for a few minutes. */
export function accountsOf(client: WebClient, homeTeam: () => Promise<string | undefined>): Accounts {
  const known = new Map<string, { readonly account: Account; readonly at: Instant }>()

  async function ask(user: string): Promise<Account> {
    const [{ user: found }, home] = await Promise.all([client.users.info({ user }), homeTeam()])
    const name = found?.profile?.real_name || found?.real_name || user
    return { standing: standingOf(found ?? {}, home), name, timeZone: found?.tz }
  }

  return {
    async look(user, now) {
      const before = known.get(user)
      const age = before ? minutesBetween(before.at, now) : Number.POSITIVE_INFINITY
      if (before && age <= freshMinutes) return before.account
      const answer = await withPatience(ask(user))
      if (!answer) return age <= usableMinutes ? before?.account : undefined
      known.set(user, { account: answer, at: now })
      return answer
    },
  }
}

type Found = {
  readonly deleted?: boolean
  readonly is_bot?: boolean
  readonly is_stranger?: boolean
  readonly is_restricted?: boolean
  readonly is_ultra_restricted?: boolean
  readonly team_id?: string
}

function standingOf(found: Found, homeTeam: string | undefined): Account['standing'] {
  if (found.deleted) return 'deactivated'
  if (found.is_bot) return 'bot'
  if (found.is_stranger || (homeTeam !== undefined && found.team_id !== homeTeam)) return 'stranger'
  return found.is_restricted || found.is_ultra_restricted ? 'guest' : 'member'
}

/** Undefined when there is no answer in time, or none at all. */
async function withPatience<T>(asked: Promise<T>): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), patienceMs)
  })
  try {
    return await Promise.race([asked.catch(() => undefined), late])
  } finally {
    clearTimeout(timer)
  }
}
