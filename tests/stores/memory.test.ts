import { emptyMemory, memoryStore } from '../../src/stores/memory.ts'
import { keepsCharts } from './contract.ts'

keepsCharts('memory', async () => {
  const memory = emptyMemory()
  return { store: memoryStore(memory), reopen: async () => memoryStore(memory), end: async () => {} }
})
