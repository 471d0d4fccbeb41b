import { afterAll, beforeAll } from 'vitest'
import { postgresStore } from '../../src/stores/postgres.ts'
import { keepsCharts } from './contract.ts'
import { erasesCharts } from './erasure.ts'
import { type Server, startPostgres } from './postgres-server.ts'

let server: Server
beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server.stop())

const open = async () => {
  const url = await server.database()
  let store = await postgresStore(url)
  return {
    store,
    async reopen() {
      await store.close()
      store = await postgresStore(url)
      return store
    },
    end: () => store.close(),
  }
}

keepsCharts('postgres', open)
erasesCharts('postgres', open)
