import fs from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { run } from '../../src/commands/store.ts'
import type { Store } from '../../src/desk/ports.ts'
import { uncovered } from '../../src/stores/cover.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { lowdbSide } from '../../src/stores/lowdb-side.ts'
import { moveCharts, type Side } from '../../src/stores/moving.ts'
import { postgresStore } from '../../src/stores/postgres.ts'
import { postgresSide } from '../../src/stores/postgres-side.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { emptyFolder } from './folders.ts'
import { type Server, startPostgres } from './postgres-server.ts'

let server: Server
let root: string
beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server.stop())
beforeEach(async () => {
  root = await emptyFolder()
  return () => fs.rmSync(root, { recursive: true })
})

/** A clinic in the middle of things: told, missed, tried, held, waiting; an open, a closed and an empty chart. */
async function liveIn(store: Store) {
  for (let length = 0; length < 450; length++) await store.commit(commitOf('ada', length))
  const surface = 'morning/ada'
  const told = ['sent', 'missed', 'sent-again', 'retried', 'held', 'waits']
  const notices = told.map((key) => notice(key, { to: { person: key }, surface }))
  await store.commit(commitOf('ada', 450, { notices, dueAt: at(30) }))
  await store.commit(commitOf('bo', 0, { open: false, notices: [notice('bo', { notBefore: at(20) })] }))
  await store.commit(commitOf('clinic', 0, { entries: [], dueAt: at(40) }))
  await store.claim(at(0), at(5), 5)
  await store.settle('sent', { sent: { channel: 'D', ts: '1' }, at: at(1) })
  await store.settle('missed', { missed: 'late', at: at(1) })
  await store.settle('sent-again', { sent: { channel: 'D', ts: '3' }, at: at(1) })
  await store.settle('retried', { retryAt: at(10), why: 'no answer', unknown: true })
  await store.schedule('ada', at(35), 451)
}

async function standing(store: Store) {
  const charts = (await store.index()).toSorted((a, b) => (a.subject < b.subject ? -1 : 1))
  return {
    charts: charts.map(({ dueAt: _, ...row }) => row),
    entries: await Promise.all(charts.map(async ({ subject }) => ids(await store.read(subject)))),
    due: await store.due(at(50), 9),
    receipt: await store.receipt('morning/ada'),
    told: await store.claim(at(50), at(55), 100),
  }
}

async function move(from: Side, to: Side) {
  const moved = await moveCharts(from, to, () => {})
  await to.close(true)
  await from.close(false)
  return moved
}

test('a clinic moves from the folder to the database and back, and stands as it stood', async () => {
  const [first, back] = [join(root, 'first'), join(root, 'back')]
  const url = await server.database()
  const store = await lowdbStore(first)
  await liveIn(store)
  await store.close()
  fs.cpSync(first, join(root, 'reference'), { recursive: true })

  const there = await move(await lowdbSide(first, uncovered), await postgresSide(url))
  expect(there).toEqual({ charts: 3, entries: 452, waiting: 4 })
  const again = await move(await postgresSide(url), await lowdbSide(back, uncovered))
  expect(again).toEqual(there)

  const stands = []
  for (const open of [
    () => lowdbStore(join(root, 'reference')),
    () => postgresStore(url),
    () => lowdbStore(back),
    () => lowdbStore(first),
  ]) {
    const each = await open()
    stands.push(await standing(each))
    await each.close()
  }
  const [reference, ...others] = stands
  expect(reference?.told.map(({ notice: { key }, tries, unknown }) => [key, tries, unknown])).toEqual([
    ['retried', 1, true],
    ['held', 1, true],
    ['waits', 0, false],
    ['bo', 0, false],
  ])
  for (const other of others)
    expect({ ...other, due: other.due.toSorted() }).toEqual({ ...reference, due: reference?.due.toSorted() })
})

test('new notices come after the moved ones', async () => {
  const url = await server.database()
  const store = await lowdbStore(join(root, 'first'))
  await liveIn(store)
  await store.close()
  await move(await lowdbSide(join(root, 'first'), uncovered), await postgresSide(url))
  const moved = await postgresStore(url)
  await moved.commit(commitOf('new', 0, { notices: [notice('later', { to: { person: 'waits' } })] }))
  const keys = (await moved.claim(at(50), at(55), 100)).map((queued) => queued.notice.key)
  expect(keys).toContain('waits')
  expect(keys).not.toContain('later')
  await moved.close()
})

test('a move never mixes two clinics', async () => {
  const url = await server.database()
  for (const folder of ['one', 'two']) {
    const store = await lowdbStore(join(root, folder))
    await store.commit(commitOf('ada', 0))
    await store.close()
  }
  await move(await lowdbSide(join(root, 'one'), uncovered), await postgresSide(url))
  const [from, to] = [await lowdbSide(join(root, 'two'), uncovered), await postgresSide(url)]
  await expect(moveCharts(from, to, () => {})).rejects.toThrow('There are 1 charts already')
  await from.close(false)
  await to.close(false)
})

test('a move that did not arrive as it was is refused', async () => {
  const url = await server.database()
  const store = await lowdbStore(join(root, 'one'))
  for (let length = 0; length < 3; length++) await store.commit(commitOf('ada', length))
  await store.close()
  const [from, to] = [await lowdbSide(join(root, 'one'), uncovered), await postgresSide(url)]
  const harmed: Side = {
    ...to,
    async put(chart) {
      await to.put(chart)
      await server.query(
        url,
        `update entries set sealed = replace(sealed, '"worstPain":2', '"worstPain":7') where seq = 2`,
      )
    },
  }
  await expect(moveCharts(from, harmed, () => {})).rejects.toThrow(
    'Chart ada did not arrive as it was: entry 3',
  )
  await from.close(false)
  await to.close(false)
})

test('the command makes the schema, moves a clinic under a key, and moves it back', async () => {
  const database = await server.database(0)
  const store = await lowdbStore(join(root, 'first'))
  await liveIn(store)
  await store.close()
  const lines: string[] = []
  const key = `k:${Buffer.alloc(32, 7).toString('base64')}`
  const order = (argv: string[], folder: string, chartKeys = '') => {
    const settings = { kind: 'lowdb', dataFolder: join(root, folder), database, chartKeys } as const
    return run(argv, (line) => lines.push(line), settings)
  }
  expect(await order(['migrate'], 'first')).toBe(0)
  expect(await order(['move', '--from', 'lowdb', '--to', 'postgres'], 'first')).toBe(0)
  expect(lines).toContain('Moved 3 charts with 452 entries and 4 notices that wait.')
  expect(await order(['move', '--from', 'postgres', '--to', 'lowdb'], 'back', key)).toBe(0)
  expect(await order(['verify'], 'back', key)).toBe(0)
  expect(await order(['move', '--from', 'lowdb', '--to', 'postgres'], 'back', key)).toBe(1)
  expect(lines.at(-1)).toContain('There are 3 charts already')
})

test('a folder that the bot works with is not moved', async () => {
  const store = await lowdbStore(root)
  await expect(lowdbSide(root, uncovered)).rejects.toThrow('Another process')
  await store.close()
})
