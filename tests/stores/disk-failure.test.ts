import { spawn } from 'node:child_process'
import fs from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import { type Store, StoreClosed } from '../../src/desk/ports.ts'
import { type Disk, disk } from '../../src/stores/disk.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import type { LowdbOptions } from '../../src/stores/lowdb-options.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { emptyFolder } from './folders.ts'

let folder: string
let ada: string
const open: Store[] = []
beforeEach(async () => {
  folder = await emptyFolder()
  ada = join(folder, 'charts', 'ada.jsonl')
})
afterEach(async () => {
  await Promise.all(open.splice(0).map((store) => store.close().catch(() => {})))
  await rm(folder, { recursive: true, force: true })
})

async function openStore(options: LowdbOptions = {}): Promise<Store> {
  const store = await lowdbStore(folder, options)
  open.push(store)
  return store
}

async function expectBoUnharmed(store: Store) {
  const { length } = await store.read('bo')
  expect(await store.commit(commitOf('bo', length))).toEqual({ committed: true, length: length + 1 })
}

describe('a disk that fails', () => {
  /** The real disk, whose next files fail in one way. */
  function failing(way: 'write' | 'truncate' | 'sync', code = 'EIO') {
    const fault = { on: false, ways: new Set<string>([way]) }
    const fail = () => Promise.reject(Object.assign(new Error(code), { code }))
    const broken: Disk = {
      ...disk,
      async open(path, flags, mode) {
        const handle = await disk.open(path, flags, mode)
        return new Proxy(handle, {
          get(real, name) {
            const value = Reflect.get(real, name)
            if (typeof value !== 'function') return value
            if (!fault.on || !fault.ways.has(String(name))) return value.bind(real)
            if (name !== 'write') return fail
            return async (bytes: Buffer, offset: number, length: number, position: number) => {
              if (length < 20) return fail()
              return real.write(bytes, offset, Math.floor(length / 2), position)
            }
          },
        })
      },
    }
    return { fault, broken }
  }

  test('half way through a write has kept nothing: the next commit follows the last whole line', async () => {
    const { fault, broken } = failing('write', 'ENOSPC')
    const store = await openStore({ disk: broken })
    await store.commit(commitOf('ada', 0))
    const whole = fs.readFileSync(ada)
    fault.on = true
    const late = { notices: [notice('lost')], dueAt: at(1) }
    await expect(store.commit(commitOf('ada', 1, late))).rejects.toThrow(
      'The disk is full. Nothing of this was kept.',
    )
    await expect(store.commit(commitOf('new', 0))).rejects.toThrow('The disk is full.')
    expect(fs.readFileSync(ada)).toEqual(whole)
    expect(ids(await store.read('ada'))).toEqual(['ada/1'])
    expect(await store.read('new')).toEqual([])
    expect(await store.waiting()).toBe(0)
    expect(await store.due(at(9), 9)).toEqual([])
    fault.on = false
    expect(await store.commit(commitOf('ada', 1))).toEqual({ committed: true, length: 2 })
    expect(await store.commit(commitOf('new', 0))).toEqual({ committed: true, length: 1 })
    await store.close()
    expect(firstBreak(await (await openStore()).read('ada'))).toBeUndefined()
  })

  test('while others wait for the same file refuses them too, and each is told', async () => {
    const { fault, broken } = failing('write', 'ENOSPC')
    const store = await openStore({ disk: broken })
    await store.commit(
      commitOf('ada', 0, { notices: [notice('one'), notice('two', { to: { person: 'bo' } })] }),
    )
    const [one, two] = await store.claim(at(0), at(5), 9)
    fault.on = true
    const sent = { sent: { channel: 'D1', ts: '1' }, at: at(1) }
    const settled = [one, two].map((queued) => store.settle(queued?.notice.key ?? '', sent))
    const answers = await Promise.allSettled([store.commit(commitOf('ada', 1)), ...settled])
    expect(answers.map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected'])
    fault.on = false
    expect(await store.commit(commitOf('ada', 1))).toEqual({ committed: true, length: 2 })
    expect(await store.waiting()).toBe(0)
    // They were sent and it could not be written down: after a crash they may have been sent.
    const crashed = `${folder}/crashed`
    for (const name of ['charts', 'claims.jsonl'])
      fs.cpSync(join(folder, name), join(crashed, name), { recursive: true })
    const again = await lowdbStore(crashed)
    open.push(again)
    expect(await again.claim(at(9), at(10), 9)).toMatchObject([{ unknown: true }, { unknown: true }])
  })

  test('otherwise than by being full closes the chart for writing, since nobody knows what it holds', async () => {
    const { fault, broken } = failing('write')
    const store = await openStore({ disk: broken })
    await store.commit(commitOf('ada', 0))
    fault.on = true
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow(
      'The disk failed. Nothing of this was kept.',
    )
    fault.on = false
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow('until the bot is started again')
    expect(ids(await store.read('ada'))).toEqual(['ada/1'])
    await expectBoUnharmed(store)
    await store.close()
    const again = await openStore()
    expect(await again.commit(commitOf('ada', 1))).toEqual({ committed: true, length: 2 })
  })

  test('to cut back a half line closes the chart, and the next start cuts it off', async () => {
    const { fault, broken } = failing('write')
    fault.ways.add('truncate')
    const store = await openStore({ disk: broken })
    await store.commit(commitOf('ada', 0))
    fault.on = true
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow(StoreClosed)
    fault.on = false
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow('until the bot is started again')
    await store.close()
    const said: string[] = []
    const again = await openStore({ report: ({ words }) => said.push(words) })
    expect(said).toEqual([expect.stringContaining('Cut off an unfinished last line')])
    expect(await again.commit(commitOf('ada', 1))).toEqual({ committed: true, length: 2 })
  })

  test('to make the name of a new chart durable keeps nothing of it', async () => {
    const { fault, broken } = failing('sync')
    const store = await openStore({ disk: broken })
    fault.on = true
    await expect(store.commit(commitOf('ada', 0))).rejects.toThrow(StoreClosed)
    expect(await store.read('ada')).toEqual([])
    expect(fs.readdirSync(join(folder, 'charts'))).toEqual([])
  })

  test('does not silence a call: it is handed out although that cannot be written down', async () => {
    const { fault, broken } = failing('write', 'ENOSPC')
    const said: string[] = []
    const store = await openStore({ disk: broken, report: ({ words }) => said.push(words) })
    await store.commit(commitOf('ada', 0, { notices: [notice('call', { kind: 'call' })] }))
    fault.on = true
    expect(await store.claim(at(0), at(5), 9)).toMatchObject([{ notice: { key: 'call' } }])
    expect(said).toEqual([expect.stringContaining('The disk is full.')])
  })
})

describe('a process of its own', () => {
  /** Runs the script that fills a chart; the answer is what it printed last. */
  async function fill(before: string, args: string[]) {
    const script = new URL('fill.script.ts', import.meta.url).pathname
    const line = `${before}; exec "${process.execPath}" --import tsx "${script}" "$@"`
    const env = { ...process.env, TSX_DISABLE_CACHE: '1' }
    const child = spawn('bash', ['-c', line, 'fill', ...args], { env, stdio: ['ignore', 'pipe', 'inherit'] })
    let out = ''
    child.stdout.on('data', (text) => {
      out += text
    })
    await new Promise((resolve) => child.on('close', resolve))
    return JSON.parse(out.trim().split('\n').at(-1) ?? '')
  }

  test('whose file may grow no more is refused, and keeps exactly what was acknowledged', async () => {
    const { acknowledged, refusals, read, other } = await fill('ulimit -f 16', [folder])
    expect(acknowledged.length).toBeGreaterThan(10)
    expect(refusals).toEqual(Array(3).fill('The disk is full. Nothing of this was kept.'))
    expect(read).toEqual(acknowledged)
    expect(other).toEqual({ committed: true, length: 1 })
    expect(ids(await (await openStore()).read('ada'))).toEqual(acknowledged)
  })

  test('that may only read the folder is told so', async () => {
    const nobody = process.getuid?.() === 0 ? ['65534'] : []
    if (nobody.length > 0) fs.chownSync(folder, 65534, 65534)
    fs.chmodSync(folder, 0o500)
    const { acknowledged, refusals } = await fill(':', [folder, ...nobody])
    fs.chmodSync(folder, 0o700)
    expect(acknowledged).toEqual([])
    expect(refusals).toEqual(['The data folder may not be read or written. Nothing of this was kept.'])
  })
})
