import { rm } from 'node:fs/promises'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { keepsCharts } from './contract.ts'
import { emptyFolder } from './folders.ts'

keepsCharts('lowdb', async () => {
  const folder = await emptyFolder()
  let store = await lowdbStore(folder)
  return {
    store,
    async reopen() {
      await store.close()
      store = await lowdbStore(folder)
      return store
    },
    async end() {
      await store.close()
      await rm(folder, { recursive: true })
    },
  }
})
