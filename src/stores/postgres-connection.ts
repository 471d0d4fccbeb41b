import pg from 'pg'
import { StoreClosed } from '../desk/ports.ts'

/** Runs one statement; the database does all of it or nothing. `again`: the first answer was lost. */
export type Ask = (
  statement: Statement,
  values: readonly unknown[],
) => Promise<pg.QueryResult & { again: boolean }>
export type Statement = { readonly name: string; readonly text: string }

const mostConnections = 8
const answerWithinMs = 2_000
const connectWithinMs = 1_500
const pauseMs = 100

/**
 * A pool for a database URL. Throws `StoreClosed` when the URL asks for a connection without TLS to anything
 * but this machine. `sslrootcert` in the URL names the certificate authority to trust.
 */
export function connect(url: string): pg.Pool {
  const pool = new pg.Pool({
    ...connectionOf(url),
    max: mostConnections,
    connectionTimeoutMillis: connectWithinMs,
    query_timeout: answerWithinMs,
    statement_timeout: answerWithinMs,
    keepAlive: true,
  })
  // An idle connection that is cut is replaced at the next question.
  pool.on('error', () => {})
  return pool
}

const onThisMachine = new Set(['localhost', '127.0.0.1', '[::1]', ''])

/** Charts never cross a network in the clear: TLS with a checked certificate, or the loopback. */
export function connectionOf(url: string): pg.PoolConfig {
  const parsed = new URL(url)
  const host = parsed.searchParams.get('host') ?? parsed.hostname
  const local = onThisMachine.has(host) || host.startsWith('/')
  const asked = parsed.searchParams.get('sslmode') ?? (local ? 'disable' : 'verify-full')
  if (!local && asked !== 'verify-full' && asked !== 'require')
    throw new StoreClosed(
      `The database on ${host} must be reached with TLS: remove "sslmode=${asked}" from its URL.`,
    )
  for (const name of ['sslmode', 'ssl', 'sslcert', 'sslkey', 'uselibpqcompat'])
    parsed.searchParams.delete(name)
  // With `sslrootcert` in the URL the driver reads the file and checks against it.
  const ca = parsed.searchParams.has('sslrootcert')
  const ssl = local && asked === 'disable' ? false : { rejectUnauthorized: true }
  return { connectionString: parsed.toString(), ...(ca ? {} : { ssl }) }
}

/**
 * Asks once more on a fresh connection when the first was lost. Every statement here can be said twice: after
 * a lost answer nobody knows whether it was done.
 */
export function asking(pool: pg.Pool): Ask {
  return async (statement, values) => {
    const query = { ...statement, values: [...values] }
    try {
      return Object.assign(await pool.query(query), { again: false })
    } catch (error) {
      if (!isLost(error)) throw error
    }
    await new Promise((resolve) => setTimeout(resolve, pauseMs))
    try {
      return Object.assign(await pool.query(query), { again: true })
    } catch (error) {
      if (!isLost(error)) throw error
      throw new StoreClosed(
        'The database cannot be reached. Nobody knows yet whether this was kept: look, then try again.',
        error,
      )
    }
  }
}

/** The connection, the server or its room failed, or two got in each other's way; everything else is a bug. */
function isLost(error: unknown): boolean {
  const { code, message = '' } = error as { code?: string; message?: string }
  if (code === undefined) return /timeout|terminated|closed|ended/i.test(message)
  if (/^(08|57P|53|58|40)/.test(code)) return true
  return /^E[A-Z]+$/.test(code) || code === '57014' || code === '25006'
}
