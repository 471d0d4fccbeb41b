import { afterAll, beforeAll, expect, test } from 'vitest'
import { postgresStore } from '../../src/stores/postgres.ts'
import { commitOf } from './commits.ts'
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

test('the database itself refuses that an entry gives way to anything but a tombstone, or that one is left out', async () => {
  const url = await server.database()
  const store = await postgresStore(url)
  const page = { id: 'person/1', name: 'Iben' }
  await store.commit(commitOf('clinic', 0, { entries: [page] }))
  const [row] = await store.index()
  await store.close()
  const asks = (...texts: object[]) => {
    const array = texts.map((one) => `'${JSON.stringify(one)}'`).join(',')
    return server.query(
      url,
      `select blank_entries('clinic', 1, '${row?.last}', 'new', array[${array}], 'mika') as done`,
    )
  }
  const [same, changed, grave] = [
    { id: 'person/1', name: 'Iben', before: 'start' },
    { id: 'person/1', name: 'Noor', before: 'start' },
    { id: 'erased', kind: 'erased', before: 'x' },
  ]
  await expect(asks(changed, grave)).rejects.toThrow('gives way to a tombstone only')
  await expect(asks(same, { ...same, id: 'person/2' })).rejects.toThrow('gives way to a tombstone only')
  await expect(asks(grave)).rejects.toThrow('none is left out')
  expect((await asks(same, grave)).rows).toEqual([{ done: true }])
  expect((await asks(same, grave)).rows).toEqual([{ done: false }])
})
