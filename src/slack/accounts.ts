import type { WebClient } from '@slack/web-api'
import { type Instant, minutesBetween } from '../chart/day.ts'
import { bucket } from '../desk/bucket.ts'
import { type Account, accountFrom, type Described } from './standing.ts'

export type Accounts = {
  /** Undefined when the workspace cannot be asked now and was not asked lately. Never throws. */
  look(account: string, now: Instant): Promise<Account | undefined>
}

const freshMinutes = 5
/** An older answer still counts while the workspace cannot be asked: an outage must not shut people out. */
const usableMinutes = 24 * 60
/** A door has three seconds to answer. */
const patienceMs = 1000
/** Questions about one account: half of the hundred a minute that the platform allows. */
const single = { atOnce: 20, everyMs: 1200 }
/** The list of all members, a thousand to a page, of which the platform gives twenty a minute. */
const perPage = 1000
const mostPages = 20
const listEveryMinutes = 1

/**
 * Asks the workspace who an account is, and remembers the answer for a few minutes. When many come at once, as in
 * the morning, it asks for the list of everybody instead of for one after the other (D26).
 */
export function accountsOf(client: WebClient, homeTeam: () => Promise<string | undefined>): Accounts {
  const known = new Map<string, { readonly account: Account; readonly at: Instant }>()
  let questions = bucket(single)
  let latestMs = 0
  let listing: { readonly at: Instant; readonly done: Promise<void> } | undefined

  function learn(found: Described, user: string, about: { home: string | undefined; at: Instant }): void {
    known.set(user, { account: accountFrom(found, user, about.home), at: about.at })
  }

  async function askOne(user: string, at: Instant): Promise<void> {
    const [{ user: found = {} }, home] = await Promise.all([client.users.info({ user }), homeTeam()])
    learn(found, user, { home, at })
  }

  /** Everybody at once; who asks meanwhile waits for the same list. */
  function askAll(at: Instant): Promise<void> {
    const age = listing ? Math.abs(minutesBetween(listing.at, at)) : Number.POSITIVE_INFINITY
    if (age >= listEveryMinutes) listing = { at, done: readList(at) }
    return listing?.done ?? Promise.resolve()
  }

  async function readList(at: Instant): Promise<void> {
    const home = await homeTeam()
    let cursor: string | undefined
    for (let page = 0; page < mostPages; page += 1) {
      const answer = await client.users.list({ limit: perPage, ...(cursor ? { cursor } : {}) })
      for (const member of answer.members ?? []) if (member.id) learn(member, member.id, { home, at })
      cursor = answer.response_metadata?.next_cursor
      if (!cursor) return
    }
  }

  function mayAskOne(now: Instant): boolean {
    const nowMs = Date.parse(now)
    // The host's clock was set back: what was counted ahead of it is forgotten.
    if (nowMs < latestMs) questions = bucket(single)
    latestMs = nowMs
    if (questions.free(nowMs) === 0) return false
    questions.take(nowMs)
    return true
  }

  return {
    async look(user, now) {
      const fresh = answerFor(user, now, freshMinutes)
      if (fresh) return fresh
      await withPatience(mayAskOne(now) ? askOne(user, now) : askAll(now))
      return answerFor(user, now, freshMinutes) ?? answerFor(user, now, usableMinutes)
    },
  }

  function answerFor(user: string, now: Instant, mostMinutes: number): Account | undefined {
    const before = known.get(user)
    return before && minutesBetween(before.at, now) <= mostMinutes ? before.account : undefined
  }
}

/** Resolves when there is an answer, when there will be none, and when it takes too long. */
async function withPatience(asked: Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, patienceMs)
  })
  try {
    await Promise.race([asked.catch(() => undefined), late])
  } finally {
    clearTimeout(timer)
  }
}
