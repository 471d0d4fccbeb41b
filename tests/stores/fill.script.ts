// Commits to one chart until the store refuses, then to another; prints what was acknowledged and the words.
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { commitOf } from './commits.ts'

const [folder = '', userId] = process.argv.slice(2)
// Root may write anywhere: be somebody else, now that everything is loaded.
if (userId !== undefined) process.seteuid?.(Number(userId))

const acknowledged: string[] = []
const refusals: string[] = []
try {
  const store = await lowdbStore(folder)
  for (let length = 0; length < 200 && refusals.length < 3; length = acknowledged.length) {
    const id = `ada/${length + 1}`
    const entries = [{ id, words: 'x'.repeat(300) }]
    const answer = await store
      .commit(commitOf('ada', length, { entries }))
      .catch((error) => refusals.push(error.message))
    if (typeof answer === 'object') acknowledged.push(id)
  }
  const read = await store.read('ada')
  const other = await store.commit(commitOf('bo', 0))
  console.log(JSON.stringify({ acknowledged, refusals, read: read.map(({ id }) => id), other }))
  await store.close()
} catch (error) {
  console.log(JSON.stringify({ acknowledged, refusals: [(error as Error).message] }))
}
