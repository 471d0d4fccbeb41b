import type { Instant } from '../chart/day.ts'
import { laneOf, type Notice } from '../chart/notices.ts'
import type { Outcome, Queued, Receipt, Resting } from '../desk/ports.ts'

/** A notice that is not settled yet. `order` is its place in the queue of all notices. */
export type Waiting = {
  readonly subject: string
  readonly order: number
  readonly notice: Notice
  tries: number
  unknown: boolean
  /** When the end of its last try was written down, in the same count as `order`. */
  triedAt?: number
  retryAt?: Instant
  heldUntil?: Instant
}

/** Where a surface was posted; `order` tells an older posting from a newer one. */
export type Posted = { readonly receipt: Receipt; readonly order: number }

export type Outbox = ReturnType<typeof outbox>

/**
 * The notices of a store that keeps them in memory: who waits, who is held, what was posted where. Of what is
 * settled it remembers the last `remember` keys and postings, and lets go of the oldest.
 */
export function outbox(remember = Number.POSITIVE_INFINITY) {
  const waiting = new Map<string, Waiting>()
  /** Apart, because calls are looked for every time that anything is written, and nearly always there are none. */
  const lanes = { calls: new Map<string, Waiting[]>(), others: new Map<string, Waiting[]>() }
  const settled = new Set<string>()
  const posted = new Map<string, Posted>()

  return {
    waiting: (): ReadonlyMap<string, Waiting> => waiting,
    settled: (): ReadonlySet<string> => settled,
    posted: (): ReadonlyMap<string, Posted> => posted,
    find: (key: string): Waiting | undefined => waiting.get(key),
    knows: (key: string): boolean => waiting.has(key) || settled.has(key),

    /** Queues a notice; one that was queued before is left alone. */
    queue(notice: Waiting) {
      if (waiting.has(notice.notice.key) || settled.has(notice.notice.key)) return
      waiting.set(notice.notice.key, notice)
      const row = rowOf(notice)
      const lane = row.get(laneOf(notice.notice)) ?? []
      // Nearly always the last; earlier only when a store finds its notices again, chart after chart.
      const behind = lane.findLastIndex((other) => other.order < notice.order)
      lane.splice(behind + 1, 0, notice)
      row.set(laneOf(notice.notice), lane)
    },

    claim(now: Instant, leaseUntil: Instant, limit: number, resting: Resting = nobody): Queued[] {
      const ready = firstsAwake(resting).filter((first) => (mayGoAt(first) ?? now) <= now)
      ready.sort((a, b) => Number(isUrgent(b.notice)) - Number(isUrgent(a.notice)) || a.order - b.order)
      return ready.slice(0, limit).map((notice) => {
        if (notice.heldUntil !== undefined) noteLostTry(notice)
        notice.heldUntil = leaseUntil
        return { notice: notice.notice, tries: notice.tries, unknown: notice.unknown }
      })
    },

    /** A key that does not wait is only remembered: a store that finds its notices again may hear of it first. */
    settle(key: string, outcome: Outcome, order: number) {
      const notice = waiting.get(key)
      if (!notice) return remembered(key)
      delete notice.heldUntil
      if ('retryAt' in outcome) {
        notice.tries += 1
        notice.triedAt = order
        notice.retryAt = outcome.retryAt
        notice.unknown = outcome.unknown
        return
      }
      leave(notice)
      remembered(key)
      if ('sent' in outcome && notice.notice.surface !== undefined)
        post(notice.notice.surface, { receipt: outcome.sent, order })
    },

    post,

    /** Takes in what an index remembers. */
    recall(known: {
      readonly settled: readonly string[]
      readonly posted: readonly (readonly [string, Posted])[]
    }) {
      for (const key of known.settled) remembered(key)
      for (const [surface, posting] of known.posted) post(surface, posting)
    },

    /** After a restart: what was held may have been sent, and nobody holds it any more. */
    letGoOfHeld() {
      for (const notice of waiting.values()) {
        if (notice.heldUntil === undefined) continue
        noteLostTry(notice)
        delete notice.heldUntil
      }
    },

    anyHeld: (): boolean => [...waiting.values()].some((notice) => notice.heldUntil !== undefined),

    /** Takes a subject's notices out of the queue. */
    withdraw(subject: string): Waiting[] {
      const theirs = [...waiting.values()].filter((notice) => notice.subject === subject)
      for (const notice of theirs) leave(notice)
      return theirs
    },

    /** Lets go of everything that names a subject: what waits, what was settled, where it was posted. */
    erase(subject: string) {
      for (const notice of [...waiting.values()]) if (notice.subject === subject) leave(notice)
      for (const key of settled) if (names(key, subject)) settled.delete(key)
      for (const surface of posted.keys()) if (names(surface, subject)) posted.delete(surface)
    },

    /** Lets go of a subject's notices to or about somebody, and of every key and surface that names them. */
    forget(subject: string, who: string) {
      for (const notice of [...waiting.values()])
        if (notice.subject === subject && isAbout(notice.notice, who)) leave(notice)
      for (const key of settled) if (names(key, who)) settled.delete(key)
      for (const surface of posted.keys()) if (names(surface, who)) posted.delete(surface)
    },

    nextTry(resting: Resting = nobody): Instant | null {
      const times = firstsAwake(resting).map((first) => mayGoAt(first) ?? first.notice.queuedAt)
      return times.reduce<Instant | null>((least, at) => (least === null || at < least ? at : least), null)
    },
  }

  function rowOf({ notice }: Waiting): Map<string, Waiting[]> {
    return isUrgent(notice) ? lanes.calls : lanes.others
  }

  /** The first of every lane that does not rest, calls first. */
  function firstsAwake(resting: Resting): Waiting[] {
    const firsts: Waiting[] = []
    for (const row of resting === 'all but calls' ? [lanes.calls] : [lanes.calls, lanes.others])
      for (const [lane, [first]] of row)
        if (first && (resting === 'all but calls' || !resting.has(lane))) firsts.push(first)
    return firsts
  }

  function remembered(key: string) {
    settled.add(key)
    if (settled.size > remember) letGoOfFirst(settled)
  }

  function post(surface: string, posting: Posted) {
    const known = posted.get(surface)
    if (known !== undefined && known.order > posting.order) return
    posted.delete(surface)
    posted.set(surface, posting)
    if (posted.size > remember) letGoOfFirst(posted)
  }

  function leave(notice: Waiting) {
    waiting.delete(notice.notice.key)
    const name = laneOf(notice.notice)
    const row = rowOf(notice)
    const lane = (row.get(name) ?? []).filter((other) => other !== notice)
    if (lane.length > 0) row.set(name, lane)
    else row.delete(name)
  }
}

/** Keys and surfaces come from causes, part by part: `prompt/<athlete>/<day>`. */
function names(key: string, subject: string): boolean {
  return key.split('/').includes(subject)
}

/** To somebody, about them, or caused by something of theirs. */
export function isAbout({ key, to, athlete }: Notice, who: string): boolean {
  return athlete === who || ('person' in to && to.person === who) || names(key, who)
}

const nobody: ReadonlySet<string> = new Set()

function letGoOfFirst(kept: Set<string> | Map<string, unknown>) {
  for (const key of kept.keys()) return kept.delete(key)
}

/** Whoever held it is gone without a word: it may have been sent, so look before sending again. */
export function noteLostTry(notice: Waiting) {
  notice.tries += 1
  notice.unknown = true
}

function mayGoAt({ notice, retryAt, heldUntil }: Waiting): Instant | undefined {
  const times = [notice.notBefore, retryAt, heldUntil].filter((at) => at !== undefined)
  return times.toSorted().at(-1)
}

/** Calls go before everything else. */
export function isUrgent(notice: Notice): boolean {
  return laneOf(notice).endsWith('!')
}
