import { chainStart, firstBreak, hashOf, type Sealed, seal } from '../chart/chain.ts'
import { laneOf, type Notice } from '../chart/notices.ts'
import {
  type Commit,
  type Committed,
  type Moved,
  type Resting,
  type Store,
  StoreClosed,
  StoreDamaged,
} from '../desk/ports.ts'
import { blanked } from './blanking.ts'
import { isUrgent } from './outbox.ts'
import { asking, connect } from './postgres-connection.ts'
import { checkSchema } from './postgres-schema.ts'
import * as say from './postgres-statements.ts'
import { checkedSubject } from './subject.ts'

/** Where a chart stood when this process saw it last; a chart only grows, so this stays true for its length. */
type Head = { readonly length: number; readonly last: string }

const mostHeads = 20_000

/**
 * A store that any number of identical processes share. Throws `StoreClosed` when the database cannot be
 * reached, has no schema yet, or would be reached without TLS.
 */
export async function postgresStore(url: string): Promise<Store> {
  const pool = connect(url)
  const ask = asking(pool)
  const heads = new Map<string, Head>()
  /** Until when this process holds what it claimed: a lease that ran out may be somebody else's by now. */
  const held = new Map<string, string>()
  let closed = false
  try {
    await checkSchema(pool)
  } catch (error) {
    await pool.end()
    throw error instanceof StoreClosed ? error : new StoreClosed('The database cannot be reached.', error)
  }

  return {
    read,

    async commit(commit) {
      checkOpen()
      const { subject, atLength } = commit
      const known = heads.get(checkedSubject(subject))
      const head = known?.length === atLength ? known : await headOf(subject)
      if (head.length !== atLength) return { moved: true, length: head.length }
      return write(commit, head)
    },

    async erase(subject, tombstone, atLength) {
      checkOpen()
      const { sealed, last } = seal([tombstone], chainStart)
      const text = JSON.stringify(sealed[0])
      const { rows, again } = await ask(say.erase, [checkedSubject(subject), atLength, last, text])
      heads.delete(subject)
      if (rows[0].erased || (again && (await isOurs(subject, 0, text)))) return { committed: true, length: 1 }
      return { moved: true, length: (await headOf(subject)).length }
    },

    async blank(subject, blanking, atLength) {
      checkOpen()
      const entries = await read(checkedSubject(subject))
      if (entries.length !== atLength) return { moved: true, length: entries.length }
      const before = heads.get(subject)?.last
      const { sealed, last } = blanked(entries, blanking)
      const texts = sealed.map((entry) => JSON.stringify(entry))
      const values = [subject, atLength, before, last, texts, blanking.naming]
      const { rows, again } = await ask(say.blank, values)
      heads.delete(subject)
      const length = sealed.length
      if (rows[0].blanked || (again && (await isOurs(subject, atLength, texts[atLength]))))
        return { committed: true, length }
      return { moved: true, length: (await headOf(subject)).length }
    },

    async index() {
      checkOpen()
      const { rows } = await ask(say.index, [])
      return rows.map(({ due_at, ...row }) => ({ ...row, dueAt: due_at === '' ? undefined : due_at }))
    },

    async due(now, limit) {
      checkOpen()
      const { rows } = await ask(say.due, [now, limit])
      return rows.map(({ subject }) => subject)
    },

    async schedule(subject, dueAt, atLength) {
      checkOpen()
      await ask(say.schedule, [checkedSubject(subject), dueAt, atLength])
    },

    async claim(now, leaseUntil, limit, resting) {
      checkOpen()
      const { rows } = await ask(say.claim, [now, leaseUntil, limit, ...columnsOfResting(resting)])
      return rows.map(({ key, notice, tries, unsure }) => {
        held.set(key, leaseUntil)
        return { notice: JSON.parse(notice) as Notice, tries, unknown: unsure }
      })
    },

    async settle(key, outcome) {
      checkOpen()
      if ('retryAt' in outcome) {
        const lease = held.get(key)
        if (lease !== undefined) await ask(say.retry, [key, outcome.retryAt, outcome.unknown, lease])
      } else {
        const { channel = null, ts = null } = 'sent' in outcome ? outcome.sent : {}
        await ask(say.end, [key, JSON.stringify(outcome), channel, ts])
      }
      held.delete(key)
    },

    async receipt(surface) {
      checkOpen()
      const { rows } = await ask(say.receipt, [surface])
      return rows[0]
    },

    async waiting() {
      checkOpen()
      const { rows } = await ask(say.waiting, [])
      return rows[0].waiting
    },

    async nextTry(resting) {
      checkOpen()
      const { rows } = await ask(say.nextTry, columnsOfResting(resting))
      return rows[0].at
    },

    async close() {
      if (closed) return
      closed = true
      await pool.end()
    },
  }

  function checkOpen() {
    if (closed) throw new StoreClosed('The store is closed.')
  }

  async function read(subject: string, from = 0): Promise<readonly Sealed[]> {
    checkOpen()
    const { rows } = await ask(say.read, [checkedSubject(subject), from])
    if (rows.length === 0) return []
    const { length, last } = rows[0] as Head
    if (from > length) return read(subject)
    const entries = rows.flatMap(({ sealed }) => (sealed === null ? [] : [JSON.parse(sealed) as Sealed]))
    checkChain(subject, entries, { from, length, last })
    remember(subject, { length, last })
    return entries
  }

  async function headOf(subject: string): Promise<Head> {
    const { rows } = await ask(say.head, [subject, 0])
    return rows[0] ?? { length: 0, last: chainStart }
  }

  async function write(commit: Commit, head: Head): Promise<Committed | Moved> {
    const { subject, atLength, notices, dueAt, open } = commit
    const { sealed, last } = seal(commit.entries, head.last)
    const texts = sealed.map((entry) => JSON.stringify(entry))
    const values = [subject, atLength, last, open, dueAt, head.last, texts]
    const { rowCount, again } =
      notices.length === 0
        ? await ask(say.commitQuietly, values)
        : await ask(say.commit, [...values, ...columnsOf(notices)])
    const length = atLength + sealed.length
    if (rowCount === 0 && !(again && (await isOurs(subject, atLength, texts[0])))) {
      heads.delete(subject)
      return { moved: true, length: (await headOf(subject)).length }
    }
    remember(subject, { length, last })
    return { committed: true, length }
  }

  /** Refused because the chart had moved: by ourselves, when the answer to the first asking was lost. */
  async function isOurs(subject: string, atLength: number, text: string | undefined): Promise<boolean> {
    if (text === undefined) return false
    const { rows } = await ask(say.head, [subject, atLength])
    return rows[0]?.sealed === text
  }

  function remember(subject: string, head: Head) {
    heads.delete(subject)
    heads.set(subject, head)
    if (heads.size > mostHeads) for (const oldest of heads.keys()) return heads.delete(oldest)
  }
}

function columnsOf(notices: readonly Notice[]): unknown[][] {
  return [
    notices.map(({ key }) => key),
    notices.map(laneOf),
    notices.map(isUrgent),
    notices.map((notice) => JSON.stringify(notice)),
    notices.map(({ surface = null }) => surface),
    notices.map(({ queuedAt }) => queuedAt),
    notices.map(({ notBefore = null }) => notBefore),
  ]
}

/** Whether everything but calls rests, and which lanes do. */
function columnsOfResting(resting: Resting = new Set()): [boolean, string[]] {
  return resting === 'all but calls' ? [true, []] : [false, [...resting]]
}

/** The rest of a chart is anchored at its end: the last entry must be the one that the chart says is its last. */
function checkChain(subject: string, entries: readonly Sealed[], at: Head & { readonly from: number }) {
  const first = entries[0]
  if (!first && at.from >= at.length) return
  const start = at.from === 0 ? chainStart : first?.before
  const broken = firstBreak(entries, start)
  const whole = entries.length === at.length - at.from
  const end = entries.at(-1)
  if (broken === undefined && whole && end && hashOf(end) === at.last) return
  const position = at.from + (broken ?? entries.length) + 1
  throw new StoreDamaged(
    `Chart ${subject}, entry ${position} in the database: the entries do not fit their hashes. Somebody changed ` +
      'them; compare with a backup before anything is written to this chart.',
  )
}
