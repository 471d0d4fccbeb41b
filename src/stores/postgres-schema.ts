import fs from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type pg from 'pg'
import { StoreClosed } from '../desk/ports.ts'

const folder = fileURLToPath(new URL('postgres', import.meta.url))

/** The oldest schema that this program works with. Steps only add, so a newer schema serves an older program. */
export const oldestStep = 1

/** The numbered steps beside the store, in order. */
export function steps(): { number: number; name: string }[] {
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.sql'))
  return names.toSorted().map((name) => ({ number: Number.parseInt(name, 10), name }))
}

/** Takes the database to a step (default: the newest), each in a transaction; one process at a time. */
export async function migrate(pool: pg.Pool, to = Number.POSITIVE_INFINITY): Promise<string[]> {
  const client = await pool.connect()
  try {
    await client.query("select pg_advisory_lock(hashtext('sanderling schema'))")
    await client.query(
      'create table if not exists schema_steps (number integer primary key, name text not null)',
    )
    const done: string[] = []
    for (const { number, name } of steps()) {
      const { rowCount } = await client.query('select 1 from schema_steps where number = $1', [number])
      if (rowCount !== 0 || number > to) continue
      await takeStep(client, number, name)
      done.push(name)
    }
    return done
  } finally {
    await client.query("select pg_advisory_unlock(hashtext('sanderling schema'))").catch(() => {})
    client.release()
  }
}

/** Throws `StoreClosed` when the schema is older than this program. */
export async function checkSchema(pool: pg.Pool): Promise<void> {
  const { rows } = await pool
    .query('select coalesce(max(number), 0) as step from schema_steps')
    .catch((error) => (error.code === '42P01' ? { rows: [{ step: 0 }] } : Promise.reject(error)))
  if (rows[0].step >= oldestStep) return
  throw new StoreClosed(
    'The database has no charts for this program yet. Run "sanderling store migrate" as its owner.',
  )
}

async function takeStep(client: pg.PoolClient, number: number, name: string) {
  const sql = fs.readFileSync(join(folder, name), 'utf8')
  try {
    await client.query('begin')
    await client.query(sql)
    await client.query('insert into schema_steps (number, name) values ($1, $2)', [number, name])
    await client.query('commit')
  } catch (error) {
    await client.query('rollback')
    throw error
  }
}
