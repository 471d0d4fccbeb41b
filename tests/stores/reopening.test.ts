import fs from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Outcome, Store } from '../../src/desk/ports.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { emptyFolder } from './folders.ts'

let root: string
beforeEach(async () => {
  root = await emptyFolder()
})
afterEach(() => fs.rmSync(root, { recursive: true }))

const subjects = ['ada', 'bo', 'cleo']
const outcomes: Outcome[] = [
  { sent: { channel: 'D1', ts: '1' }, at: at(1) },
  { missed: 'late', at: at(1) },
  { retryAt: at(3), why: 'rate limited', unknown: false },
  { retryAt: at(3), why: 'no answer', unknown: true },
]

/** What happens in a clinic: somebody writes, somebody is told, somebody closes the index. */
const happening = fc.oneof(
  fc.record({
    do: fc.constant('commit' as const),
    who: fc.constantFrom(...subjects),
    told: fc.constantFrom(...subjects),
  }),
  fc.record({ do: fc.constant('send' as const), outcome: fc.nat(outcomes.length - 1) }),
  fc.record({ do: fc.constant('hand-out' as const) }),
  fc.record({ do: fc.constant('reopen' as const) }),
)
type Happening = typeof happening extends fc.Arbitrary<infer H> ? H : never

/** Everything that a store can be asked. */
async function standing(store: Store) {
  const charts = (await store.index()).toSorted((a, b) => (a.subject < b.subject ? -1 : 1))
  const entries = await Promise.all(charts.map(({ subject }) => store.read(subject)))
  const receipts = await Promise.all(subjects.map((subject) => store.receipt(`surface/${subject}`)))
  const told: unknown[] = []
  for (let minute = 20; await store.waiting(); minute++) {
    const claimed = await store.claim(at(minute), at(minute + 1), 100)
    told.push(claimed.map(({ notice: { key }, tries, unknown }) => [key, tries, unknown]))
    for (const {
      notice: { key },
    } of claimed)
      await store.settle(key, { missed: 'the end', at: at(minute) })
  }
  return { charts: charts.map(({ dueAt: _, ...row }) => row), entries: entries.map(ids), receipts, told }
}

async function live(
  folder: string,
  happenings: readonly Happening[],
  keep: (name: string) => void,
): Promise<void> {
  let store = await lowdbStore(folder)
  let notices = 0
  for (const happening of happenings) {
    if (happening.do === 'reopen') {
      await store.close()
      keep('old')
      store = await lowdbStore(folder)
    } else if (happening.do === 'commit') {
      const { length } = await store.read(happening.who)
      notices += 1
      const told = notice(`n${notices}`, {
        to: { person: happening.told },
        surface: `surface/${happening.told}`,
      })
      await store.commit(commitOf(happening.who, length, { notices: [told], dueAt: at(1) }))
    } else {
      const [claimed] = await store.claim(at(5), at(6), 1)
      const outcome = happening.do === 'send' ? outcomes[happening.outcome] : undefined
      if (claimed && outcome) await store.settle(claimed.notice.key, outcome)
    }
  }
  keep('crashed')
  await store.close()
}

test('a start finds the same from the index, from an old index after a crash, and from the charts alone', async () => {
  let round = 0
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { minLength: 5, maxLength: 40 }), async (happenings) => {
      round += 1
      const folder = join(root, `${round}`)
      const copy = (name: string) => {
        fs.rmSync(`${folder}-${name}`, { recursive: true, force: true })
        fs.cpSync(folder, `${folder}-${name}`, { recursive: true })
        fs.rmSync(join(`${folder}-${name}`, 'lock'), { force: true })
      }
      await live(folder, happenings, copy)
      copy('rebuilt')
      fs.rmSync(join(`${folder}-rebuilt`, 'index.json'))
      const stands = []
      for (const name of ['', '-crashed', '-rebuilt']) {
        const store = await lowdbStore(`${folder}${name}`, { onDamage: 'refuse' })
        stands.push(await standing(store))
        await store.close()
      }
      expect(stands[1]).toEqual(stands[0])
      expect(stands[2]).toEqual(stands[0])
    }),
    { numRuns: 40 },
  )
})

test('a start without an index looks at every open chart at once, and leaves closed ones on disk', async () => {
  const store = await lowdbStore(root)
  await store.commit(commitOf('ada', 0, { dueAt: at(30) }))
  await store.commit(commitOf('done', 0, { dueAt: null, open: false }))
  await store.close()
  fs.rmSync(join(root, 'index.json'))
  const again = await lowdbStore(root)
  expect((await again.index()).map(({ subject, dueAt }) => [subject, dueAt])).toEqual([
    ['ada', undefined],
    ['done', null],
  ])
  expect(await again.due(at(0), 9)).toEqual(['ada'])
  await again.schedule('ada', at(40), 1)
  expect(await again.due(at(39), 9)).toEqual([])
  await again.close()
})

test('a damaged index is made again from the charts', async () => {
  const store = await lowdbStore(root)
  await store.commit(commitOf('ada', 0, { notices: [notice('one')] }))
  await store.close()
  const path = join(root, 'index.json')
  for (const harm of ['', '{', fs.readFileSync(path, 'utf8').replace('ada', 'bob')]) {
    fs.writeFileSync(path, harm)
    const again = await lowdbStore(root, { onDamage: 'refuse' })
    expect(await again.read('ada')).toHaveLength(1)
    expect(await again.waiting()).toBe(1)
    await again.close()
  }
})

test('what a write left behind that never got its name is swept away', async () => {
  await (await lowdbStore(root)).close()
  fs.writeFileSync(join(root, 'charts', 'ada.jsonl.new'), '["half')
  fs.writeFileSync(join(root, 'index.json.123456'), 'half')
  await (await lowdbStore(root)).close()
  expect(fs.readdirSync(root, { recursive: true }).toSorted()).toEqual(['charts', 'index.json'])
})

test('starts after many crashes do not each read all again', async () => {
  const store = await lowdbStore(root)
  const entries = Array.from({ length: 200 }, (_, i) => ({ id: `${i}` }))
  await Promise.all(
    Array.from({ length: 1100 }, (_, i) => store.commit(commitOf(`athlete-${i}`, 0, { entries }))),
  )
  const crashed = `${root}/crashed`
  fs.cpSync(join(root, 'charts'), join(crashed, 'charts'), { recursive: true })
  await store.close()
  const again = await lowdbStore(crashed)
  expect(fs.existsSync(join(crashed, 'index.json'))).toBe(true)
  fs.cpSync(crashed, `${root}/second`, { recursive: true })
  fs.rmSync(`${root}/second/lock`)
  const third = await lowdbStore(`${root}/second`, { onDamage: 'refuse' })
  expect(await third.index()).toHaveLength(1100)
  expect(await third.read('athlete-7')).toHaveLength(200)
  await third.close()
  await again.close()
})
