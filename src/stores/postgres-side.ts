import type { Sealed } from '../chart/chain.ts'
import { chainStart, hashOf } from '../chart/chain.ts'
import { laneOf } from '../chart/notices.ts'
import { StoreClosed } from '../desk/ports.ts'
import type { MovedChart, MovedNotice, Side } from './moving.ts'
import { isUrgent } from './outbox.ts'
import { connect } from './postgres-connection.ts'
import { checkSchema } from './postgres-schema.ts'

/** A database as one side of a move. */
export async function postgresSide(url: string): Promise<Side> {
  const pool = connect(url)
  try {
    await checkSchema(pool)
  } catch (error) {
    await pool.end()
    throw error instanceof StoreClosed ? error : new StoreClosed('The database cannot be reached.', error)
  }

  return {
    async subjects() {
      const { rows } = await pool.query('select subject from charts order by subject')
      return rows.map(({ subject }) => subject)
    },

    async chart(subject) {
      const chart = await pool.query('select open, due_at from charts where subject = $1', [subject])
      const entries = await pool.query('select sealed from entries where subject = $1 order by seq', [
        subject,
      ])
      const notices = await pool.query('select * from notices where subject = $1 order by place', [subject])
      const { open, due_at: dueAt } = chart.rows[0]
      return {
        subject,
        open,
        dueAt: dueAt === '' ? undefined : dueAt,
        entries: entries.rows.map(({ sealed }) => JSON.parse(sealed) as Sealed),
        notices: notices.rows.map(noticeOf),
      }
    },

    async put(chart) {
      const client = await pool.connect()
      try {
        await client.query('begin')
        for (const [text, values] of statementsFor(chart)) await client.query(text, values)
        await client.query('commit')
      } catch (error) {
        await client.query('rollback').catch(() => {})
        throw error
      } finally {
        client.release()
      }
    },

    async close(done) {
      if (done)
        await pool.query(
          `select setval('places', greatest((select last_value from places), (select max(place) from notices),
             (select max(ended_place) from notices)))`,
        )
      await pool.end()
    },
  }
}

type NoticeRow = {
  place: string
  notice: string
  tries: number
  unsure: boolean
  retry_at: string | null
  held_until: string | null
  outcome: string | null
  ended_place: string | null
}

function noticeOf(row: NoticeRow): MovedNotice {
  const { place, notice, tries, unsure, retry_at, held_until, outcome, ended_place } = row
  // Whoever held it when the clinic stopped did not say what became of it.
  const lost = outcome === null && held_until !== null
  return {
    place: Number(place),
    notice: JSON.parse(notice),
    tries: tries + (lost ? 1 : 0),
    unknown: unsure || lost,
    retryAt: retry_at ?? undefined,
    end: outcome === null ? undefined : { outcome: JSON.parse(outcome), place: Number(ended_place) },
  }
}

function statementsFor({ subject, open, dueAt, entries, notices }: MovedChart): [string, unknown[]][] {
  const last = entries.at(-1)
  const head = [
    subject,
    entries.length,
    last ? hashOf(last) : chainStart,
    open,
    dueAt === undefined ? '' : dueAt,
  ]
  return [
    ['insert into charts (subject, length, last, open, due_at) values ($1, $2, $3, $4, $5)', head],
    [
      `insert into entries (subject, seq, sealed)
       select $1, ord - 1, sealed from unnest($2::text[]) with ordinality as e (sealed, ord)`,
      [subject, entries.map((entry) => JSON.stringify(entry))],
    ],
    ...notices.flatMap((moved) => noticeStatements(subject, moved)),
  ]
}

function noticeStatements(subject: string, moved: MovedNotice): [string, unknown[]][] {
  const { place, notice, tries, unknown, retryAt, end } = moved
  const { key, surface = null, queuedAt, notBefore = null } = notice
  const ended = [end ? JSON.stringify(end.outcome) : null, end?.place ?? null]
  const columns = [
    key,
    place,
    subject,
    laneOf(notice),
    isUrgent(notice),
    JSON.stringify(notice),
    surface,
    queuedAt,
  ]
  const queued: [string, unknown[]] = [
    `insert into notices (key, place, subject, lane, urgent, notice, surface, queued_at,
       not_before, retry_at, tries, unsure, outcome, ended_place)
     values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`,
    [...columns, notBefore, retryAt ?? null, tries, unknown, ...ended],
  ]
  if (!end || !('sent' in end.outcome) || surface === null) return [queued]
  const { channel, ts } = end.outcome.sent
  const posted = `insert into receipts as r (surface, channel, ts, place) values ($1, $2, $3, $4)
     on conflict (surface) do update set channel = excluded.channel, ts = excluded.ts, place = excluded.place
     where r.place < excluded.place`
  return [queued, [posted, [surface, channel, ts, end.place]]]
}
