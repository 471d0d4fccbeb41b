import pg from 'pg'
import { postgresStore } from '../stores/postgres.ts'
import { migrate } from '../stores/postgres-schema.ts'
import { commitTo, entryOf, ratePerSecond } from './bench-commits.ts'
import { type Row, reaches } from './bench-row.ts'
import { startOwnPostgres } from './own-postgres.ts'

const atOnce = 8
const athletes = 500

/** Commits a second into a database, against bare inserts of the same text on the same server. */
export async function rows(seconds = 3): Promise<Row[]> {
  const server = await startOwnPostgres()
  try {
    const pool = new pg.Pool({ connectionString: server.url('postgres'), max: atOnce })
    await pool.query('create table bare (subject text, seq integer, sealed text, primary key (subject, seq))')
    const text = JSON.stringify(entryOf(0))
    const insert = { name: 'bare', text: 'insert into bare values ($1, $2, $3)' }
    const reference = await ratePerSecond(atOnce, seconds, async (i) => {
      await pool.query({ ...insert, values: [`athlete-${i % athletes}`, i, text] })
    })
    await migrate(pool)
    await pool.end()

    const store = await postgresStore(server.url('postgres'))
    const lengths = new Array<number>(athletes).fill(0)
    for (let i = 0; i < athletes; i++) await commitTo(store, lengths, i, 1)
    const ours = await ratePerSecond(atOnce, seconds, (i) => commitTo(store, lengths, i % athletes, 1))
    await store.close()
    return [reaches('commits a second, PostgreSQL, 8 at a time, beside bare inserts', ours, reference, 0.4)]
  } finally {
    await server.stop()
  }
}
