// Opens a folder, says so, and stays until it is ended.
import { lowdbStore } from '../../src/stores/lowdb.ts'

const store = await lowdbStore(process.argv[2] ?? '')
console.log('open')
process.on('SIGTERM', () => void store.close().then(() => process.exit(0)))
setInterval(() => {}, 1000)
