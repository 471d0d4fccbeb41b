import { type ChildProcess, spawn } from 'node:child_process'
import fs from 'node:fs'
import pg from 'pg'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import { type Store, StoreClosed, StoreDamaged } from '../../src/desk/ports.ts'
import { postgresStore } from '../../src/stores/postgres.ts'
import { migrate, steps } from '../../src/stores/postgres-schema.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { cuttableWire } from './cuttable.ts'
import { type Server, startPostgres } from './postgres-server.ts'

let server: Server
const stores: Store[] = []
const children: ChildProcess[] = []
beforeAll(async () => {
  server = await startPostgres()
})
afterEach(async () => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
  await Promise.all(stores.splice(0).map((store) => store.close()))
})
afterAll(() => server.stop())

async function openStore(url: string): Promise<Store> {
  const store = await postgresStore(url)
  stores.push(store)
  return store
}

/** A process of its own; `lines` grows with what it says. */
function machine(url: string, name: string, count: number) {
  const script = new URL('machine.script.ts', import.meta.url).pathname
  const args = ['--import', 'tsx', script, url, name, `${count}`]
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
  children.push(child)
  const lines: string[] = []
  let rest = ''
  child.stdout.on('data', (text) => {
    const parts = (rest + text).split('\n')
    rest = parts.pop() ?? ''
    lines.push(...parts)
  })
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve))
  const said = async (least: number) => {
    while (lines.length < least) await new Promise((resolve) => setTimeout(resolve, 5))
  }
  return { child, lines, ended, said }
}

const kept = (lines: readonly string[]) =>
  lines.flatMap((line) => (line.startsWith('kept ') ? [line.slice(5)] : []))

async function everyEntry(store: Store): Promise<unknown[]> {
  const subjects = (await store.index()).map(({ subject }) => subject)
  const charts = await Promise.all(subjects.map((subject) => store.read(subject)))
  for (const entries of charts) expect(firstBreak(entries)).toBeUndefined()
  return charts.flatMap(ids)
}

describe('three processes on one database', () => {
  test('lose no entry and tell nothing twice, although one is killed in the middle of a delivery', async () => {
    const url = await server.database()
    const machines = ['a', 'b', 'c'].map((name) => machine(url, name, 60))
    const [first, ...others] = machines as [(typeof machines)[0], ...typeof machines]
    await first.said(50)
    first.child.kill('SIGKILL')
    expect(await Promise.all(others.map(({ ended }) => ended))).toEqual([0, 0])
    await first.ended

    const store = await openStore(url)
    const entries = await everyEntry(store)
    const acknowledged = machines.flatMap(({ lines }) => kept(lines))
    expect(new Set(entries).size).toBe(entries.length)
    expect(entries).toEqual(expect.arrayContaining(acknowledged))
    // What it wrote and did not live to say may be there: one entry at the most.
    expect(entries.length - acknowledged.length).toBeLessThanOrEqual(1)

    expect(await store.waiting()).toBe(0)
    const sent = machines.flatMap(({ lines }) => lines.filter((line) => line.startsWith('sent ')))
    const firsts = sent.filter((line) => line.endsWith('first'))
    expect(new Set(firsts).size).toBe(firsts.length)
    const told = new Set(sent.map((line) => line.split(' ')[1]))
    expect([...told].toSorted()).toEqual(entries.map(String).toSorted())
  })
})

describe('a database behind a wire', () => {
  const through = (url: string, port: number) => url.replace(/:\d+\//, `:${port}/`)

  test('that is cut again and again keeps what was acknowledged, once', async () => {
    const url = await server.database()
    const wire = await cuttableWire(server.port)
    const store = await openStore(through(url, wire.port))
    const acknowledged: string[] = []
    let refused = 0
    let working = true
    const write = async (hand: number) => {
      for (let i = 0; working && i < 2000; i++) {
        const id = `${hand}/${i}`
        try {
          const { length } = await store.read(`athlete-${hand}`)
          const answer = await store.commit(
            commitOf(`athlete-${hand}`, length, { entries: [{ id }], notices: [notice(id)] }),
          )
          if ('committed' in answer) acknowledged.push(id)
        } catch (error) {
          expect(error).toBeInstanceOf(StoreClosed)
          refused += 1
        }
      }
    }
    const writers = [0, 1, 2, 3].map(write)
    for (let cut = 0; cut < 6; cut++) {
      const before = acknowledged.length
      while (acknowledged.length < before + 20) await new Promise((resolve) => setTimeout(resolve, 3))
      wire.cut()
      await new Promise((resolve) => setTimeout(resolve, cut % 2 === 0 ? 0 : 250))
      wire.mend()
    }
    working = false
    await Promise.all(writers)
    expect(refused).toBeGreaterThan(0)
    const direct = await openStore(url)
    const entries = await everyEntry(direct)
    expect(new Set(entries).size).toBe(entries.length)
    expect(entries).toEqual(expect.arrayContaining(acknowledged))
    expect(await direct.waiting()).toBe(entries.length)
    await wire.end()
  })

  test('that loses the answer to a commit finds out that it was kept', async () => {
    const url = await server.database()
    const wire = await cuttableWire(server.port)
    const store = await openStore(through(url, wire.port))
    await store.commit(commitOf('ada', 0))
    wire.loseAnswers()
    const late = store.commit(commitOf('ada', 1, { notices: [notice('one')] }))
    setTimeout(() => wire.mend(), 50)
    expect(await late).toEqual({ committed: true, length: 2 })
    expect(ids(await store.read('ada'))).toEqual(['ada/1', 'ada/2'])
    expect(await store.waiting()).toBe(1)
    await wire.end()
  })

  test('that stays cut refuses with words, and works again when it is mended', async () => {
    const url = await server.database()
    const wire = await cuttableWire(server.port)
    const store = await openStore(through(url, wire.port))
    wire.cut()
    await expect(store.commit(commitOf('ada', 0))).rejects.toThrow('The database cannot be reached.')
    await expect(postgresStore(through(url, wire.port))).rejects.toThrow(StoreClosed)
    wire.mend()
    expect(await store.commit(commitOf('ada', 0))).toEqual({ committed: true, length: 1 })
    await wire.end()
  })
})

describe('the schema', () => {
  test('is taken to its newest step while an older process goes on', async () => {
    const url = await server.database(1)
    const old = machine(url, 'old', 150)
    await old.said(20)
    const pool = new pg.Pool({ connectionString: url })
    expect(await migrate(pool)).toEqual(
      steps()
        .slice(1)
        .map(({ name }) => name),
    )
    expect(await migrate(pool)).toEqual([])
    await pool.end()
    const fresh = machine(url, 'new', 50)
    expect(await Promise.all([old.ended, fresh.ended])).toEqual([0, 0])
    const store = await openStore(url)
    expect(await everyEntry(store)).toHaveLength(200)
    expect(await store.waiting()).toBe(0)
  })

  test('is made once although ten processes begin at the same time', async () => {
    const url = await server.database(0)
    const pools = Array.from({ length: 10 }, () => new pg.Pool({ connectionString: url }))
    const done = await Promise.all(pools.map((pool) => migrate(pool)))
    expect(done.flat()).toEqual(steps().map(({ name }) => name))
    await Promise.all(pools.map((pool) => pool.end()))
  })

  test('that is missing is named, with the way to make it', async () => {
    const url = await server.database(0)
    await expect(postgresStore(url)).rejects.toThrow('sanderling store migrate')
  })
})

describe('the role of the bot', () => {
  test('can do all of the bot’s work, and can neither change an entry nor shape a table', async () => {
    const url = await server.database(0)
    await server.query(url, fs.readFileSync('manifests/postgres-roles.sql', 'utf8'))
    await server.query(
      url,
      "alter role sanderling_app password 'a'; alter role sanderling_owner password 'o'",
    )
    const as = (role: string, password: string) => url.replace('postgres:password@', `${role}:${password}@`)
    const owner = new pg.Pool({ connectionString: as('sanderling_owner', 'o') })
    await migrate(owner)
    await owner.end()
    const app = as('sanderling_app', 'a')
    const store = await openStore(app)
    await store.commit(commitOf('ada', 0, { notices: [notice('one', { surface: 's' })], dueAt: at(1) }))
    await store.commit(commitOf('ada', 1))
    await store.schedule('ada', at(3), 2)
    expect(await store.due(at(3), 9)).toEqual(['ada'])
    await store.claim(at(0), at(5), 9)
    await store.settle('one', { sent: { channel: 'D', ts: '1' }, at: at(1) })
    expect(await store.receipt('s')).toEqual({ channel: 'D', ts: '1' })
    for (const deed of [
      "update entries set sealed = '{}'",
      'delete from entries',
      'delete from charts',
      'truncate notices',
      'create table mine ()',
      'alter table entries add column x integer',
      'update schema_steps set number = 0',
    ])
      await expect(server.query(app, deed)).rejects.toThrow(/permission denied|must be owner/)
  })

  test('an entry that was changed behind the bot’s back is noticed when the chart is read', async () => {
    const url = await server.database()
    const store = await openStore(url)
    for (let length = 0; length < 3; length++) await store.commit(commitOf('ada', length))
    const harms = [
      [`update entries set sealed = replace(sealed, '"worstPain":2', '"worstPain":7') where seq = 1`, 3],
      ['delete from entries where seq = 2', 3],
      [`update entries set sealed = replace(sealed, '"worstPain":2', '"worstPain":7') where seq = 2`, 4],
    ] as const
    for (const [harm, entry] of harms) {
      await server.query(url, `create table if not exists spare as table entries; ${harm}`)
      await expect(store.read('ada')).rejects.toThrow(StoreDamaged)
      await expect(store.read('ada')).rejects.toThrow(`Chart ada, entry ${entry}`)
      await server.query(url, 'truncate entries; insert into entries table spare')
    }
    expect(await store.read('ada')).toHaveLength(3)
  })
})
