// One of several identical processes: writes entries, delivers notices, and says on stdout what it was told.
import { postgresStore } from '../../src/stores/postgres.ts'
import { commitOf, notice } from './commits.ts'

const [url = '', name = '', count = '0'] = process.argv.slice(2)
const store = await postgresStore(url)
const say = (line: string) => process.stdout.write(`${line}\n`)
const now = (plusMs = 0) => new Date(Date.now() + plusMs).toISOString()
let writing = true

async function write() {
  for (let i = 0; i < Number(count); i++) {
    const id = `${name}/${i}`
    const subject = `athlete-${i % 5}`
    for (;;) {
      const { length } = await store.read(subject)
      const notices = [notice(id, { to: { person: `p${i % 7}` }, queuedAt: now() })]
      if ('committed' in (await store.commit(commitOf(subject, length, { entries: [{ id }], notices }))))
        break
    }
    say(`kept ${id}`)
  }
  writing = false
}

async function deliver() {
  while (writing || (await store.waiting()) > 0) {
    for (const queued of await store.claim(now(), now(1000), 3)) {
      say(`sent ${queued.notice.key} ${queued.unknown ? 'unknown' : 'first'}`)
      await store.settle(queued.notice.key, { sent: { channel: 'D', ts: '1' }, at: now() })
    }
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
}

await Promise.all([write(), deliver()])
await store.close()
