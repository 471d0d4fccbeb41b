import pg from 'pg'
import { startOwnPostgres } from '../../src/commands/own-postgres.ts'
import { migrate } from '../../src/stores/postgres-schema.ts'

export type Server = {
  /** A new database with the schema in it, up to a step; gives back its URL. */
  database(step?: number): Promise<string>
  query(url: string, text: string): Promise<pg.QueryResult>
  readonly port: number
  stop(): Promise<void>
}

/** A server that makes databases for tests. */
export async function startPostgres(): Promise<Server> {
  const server = await startOwnPostgres()
  let made = 0

  return {
    port: server.port,
    stop: server.stop,
    async database(step) {
      made += 1
      await server.create(`clinic_${made}`)
      const url = server.url(`clinic_${made}`)
      if (step === 0) return url
      const pool = new pg.Pool({ connectionString: url })
      await migrate(pool, step)
      await pool.end()
      return url
    },
    async query(url, text) {
      const client = new pg.Client({ connectionString: url })
      await client.connect()
      try {
        return await client.query(text)
      } finally {
        await client.end()
      }
    },
  }
}
