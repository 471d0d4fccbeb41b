import { emptyMemory, memoryStore } from '../../src/stores/memory.ts'
import { keepsCharts } from './contract.ts'
import { erasesCharts } from './erasure.ts'

const open = async () => {
  const memory = emptyMemory()
  return { store: memoryStore(memory), reopen: async () => memoryStore(memory), end: async () => {} }
}

keepsCharts('memory', open)
erasesCharts('memory', open)
