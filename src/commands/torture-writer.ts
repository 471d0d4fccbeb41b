// The process that `torture` kills: commits from several hands, delivers, and says what it was answered.
import { writeSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Store } from '../desk/ports.ts'
import { lowdbStore } from '../stores/lowdb.ts'

const hands = 8
const subjects = 6
const people = 200

/** Writes and delivers for a while; what is left of the notices is delivered at the end. */
export async function write(store: Store, round: number, lastsMs: number, say: (line: string) => void) {
  const until = performance.now() + lastsMs
  let writing = hands
  const hand = async (number: number) => {
    for (let i = 0; performance.now() < until; i++)
      await submit(store, `r${round}-${number}-${i}`, i + number, say)
    writing -= 1
  }
  const deliver = async () => {
    while (writing > 0 || (await store.waiting()) > 0) {
      await deliverSome(store, say)
      await new Promise((resolve) => setTimeout(resolve, 2))
    }
  }
  await Promise.all([...Array.from({ length: hands }, (_, number) => hand(number)), deliver()])
}

async function submit(store: Store, id: string, number: number, say: (line: string) => void) {
  const subject = `athlete-${number % subjects}`
  for (;;) {
    const { length } = await store.read(subject)
    const to = { person: `person-${number % people}` }
    const notices = [{ key: id, kind: 'told' as const, to, queuedAt: new Date().toISOString() }]
    const answer = await store.commit({
      subject,
      entries: [{ id }],
      notices,
      atLength: length,
      dueAt: null,
      open: true,
    })
    if ('committed' in answer) return say(`kept ${subject} ${id}`)
  }
}

async function deliverSome(store: Store, say: (line: string) => void) {
  const now = new Date()
  const leaseUntil = new Date(now.getTime() + 10_000).toISOString()
  const claimed = await store.claim(now.toISOString(), leaseUntil, 100)
  const sent = { sent: { channel: 'D', ts: '1' }, at: now.toISOString() }
  const tell = async ({ notice, unknown }: (typeof claimed)[number]) => {
    say(`told ${notice.key} ${unknown ? 'unknown' : 'first'}`)
    await store.settle(notice.key, sent)
  }
  await Promise.all(claimed.map(tell))
}

/** Past the stream: what that still holds when the process is killed was never said, though it was done. */
function sayAtOnce(line: string) {
  let rest = Buffer.from(`${line}\n`)
  while (rest.length > 0)
    try {
      rest = rest.subarray(writeSync(1, rest))
    } catch (error) {
      // Whoever listens is slow: wait for it.
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error
    }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [folder = '', round = '', lastsMs = ''] = process.argv.slice(2)
  const store = await lowdbStore(folder, { onDamage: 'refuse' })
  await write(store, Number(round), Number(lastsMs), sayAtOnce)
  await store.close()
}
