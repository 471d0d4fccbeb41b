import { spawn } from 'node:child_process'
import fs from 'node:fs'
import { cp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import { type Store, StoreClosed, StoreDamaged } from '../../src/desk/ports.ts'
import { type Disk, disk } from '../../src/stores/disk.ts'
import { readLines, uncovered } from '../../src/stores/line.ts'
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

/** A closed store in which ada has `commits` entries of some size, and bo has one. */
async function written(commits: number): Promise<Buffer> {
  const store = await openStore()
  await store.commit(commitOf('bo', 0))
  for (let length = 0; length < commits; length++) {
    const entries = [{ id: `ada/${length + 1}`, words: `day ${length} `.repeat(1 + (length % 7) * 4) }]
    await store.commit(commitOf('ada', length, { entries }))
  }
  await store.close()
  return fs.readFileSync(ada)
}

/** As after a crash or a restore from elsewhere: nothing but the charts. */
const forgetIndex = () => fs.rmSync(join(folder, 'index.json'))

const linesIn = (bytes: Buffer) => bytes.filter((byte) => byte === 10).length

async function expectBoUnharmed(store: Store) {
  const { length } = await store.read('bo')
  expect(await store.commit(commitOf('bo', length))).toEqual({ committed: true, length: length + 1 })
}

describe('a chart that was cut', () => {
  async function expectCutKept(own: string, whole: Buffer, size: number) {
    const cut = whole.subarray(0, size)
    fs.writeFileSync(join(own, 'charts', 'ada.jsonl'), cut)
    fs.rmSync(join(own, 'index.json'), { force: true })
    const said: string[] = []
    const store = await lowdbStore(own, { report: ({ words }) => said.push(words) })
    const entries = await store.read('ada')
    // A last line that lacks only its line end is there in full, and stays.
    const unended = whole.at(size) === 10
    const expected = linesIn(cut) + (unended ? 1 : 0)
    expect(entries.length).toBe(expected)
    expect(entries.at(-1)?.id).toBe(`ada/${expected}`)
    expect(said.length).toBe(cut.at(-1) === 10 || unended ? 0 : 1)
    if (size % 17 === 0) {
      expect(await store.commit(commitOf('ada', expected))).toEqual({ committed: true, length: expected + 1 })
      expect(firstBreak(await store.read('ada'))).toBeUndefined()
    }
    await store.close()
  }

  test('at any byte of its last 4 KB keeps every line that is whole, and goes on', async () => {
    const whole = await written(40)
    expect(whole.length).toBeGreaterThan(4096 + 1000)
    const hands = 16
    const cutInFolder = async (hand: number) => {
      const own = join(folder, `${hand}`)
      fs.cpSync(join(folder, 'charts'), join(own, 'charts'), { recursive: true })
      for (let size = whole.length - 4096 + hand; size < whole.length; size += hands)
        await expectCutKept(own, whole, size)
    }
    await Promise.all(Array.from({ length: hands }, (_, hand) => cutInFolder(hand)))
  })

  test('below what the index knows is refused: lines that were acknowledged are missing', async () => {
    const whole = await written(40)
    for (let size = whole.length - 1; size > whole.length - 1000; size -= 111) {
      fs.writeFileSync(ada, whole.subarray(0, size))
      const store = await openStore()
      await expect(store.read('ada')).rejects.toThrow(
        /charts\/ada\.jsonl, line \d+: lines that were kept are missing/,
      )
      await expect(store.commit(commitOf('ada', 40))).rejects.toThrow(StoreClosed)
      await expectBoUnharmed(store)
      await store.close()
    }
  })
})

describe('a chart with one wrong byte', () => {
  test('never reads as something else, whichever byte and whichever bit', async () => {
    const whole = await written(12)
    const { kept } = readLines(whole, 'ada', uncovered)
    for (let place = 0; place < whole.length; place++)
      for (const bit of [1, 1 << (place % 8), 128]) {
        const flipped = Buffer.from(whole)
        flipped[place] = (flipped[place] ?? 0) ^ bit
        const reading = readLines(flipped, 'ada', uncovered)
        expect(reading.end.is).toBe('damaged')
        expect(kept.slice(0, reading.kept.length)).toEqual(reading.kept)
      }
  })

  test('is refused with file, line and the way to restore, and the others work', async () => {
    const whole = await written(12)
    for (const index of ['kept', 'forgotten'])
      for (const place of [0, 60, Math.floor(whole.length / 2), whole.length - 20, whole.length - 1]) {
        const flipped = Buffer.from(whole)
        flipped[place] = (flipped[place] ?? 0) ^ 4
        fs.writeFileSync(ada, flipped)
        if (index === 'forgotten') fs.rmSync(join(folder, 'index.json'), { force: true })
        const store = await openStore()
        const line = linesIn(whole.subarray(0, place)) + 1
        await expect(store.read('ada')).rejects.toThrow(
          new RegExp(`charts/ada\\.jsonl, line ${line}: .*store restore ada`),
        )
        await expect(store.read('ada')).rejects.toThrow(StoreDamaged)
        await expect(store.commit(commitOf('ada', 12))).rejects.toThrow(StoreClosed)
        await expectBoUnharmed(store)
        await store.close()
      }
  })

  test('keeps a store from opening that was asked to refuse', async () => {
    const whole = await written(3)
    fs.writeFileSync(ada, whole.fill(0x20, 100, 101))
    forgetIndex()
    await expect(lowdbStore(folder, { onDamage: 'refuse' })).rejects.toThrow(/ada\.jsonl, line 1/)
    await expectBoUnharmed(await openStore())
  })

  test('is not asked what is due, and its notices wait until it is restored', async () => {
    const store = await openStore()
    await store.commit(commitOf('ada', 0, { dueAt: at(1), notices: [notice('one')] }))
    await store.commit(
      commitOf('bo', 0, { dueAt: at(2), notices: [notice('two', { to: { person: 'bo' } })] }),
    )
    await store.close()
    const whole = fs.readFileSync(ada)
    fs.writeFileSync(ada, whole.subarray(0, 50))
    const damaged = await openStore()
    expect(await damaged.due(at(9), 9)).toEqual(['bo'])
    expect(await damaged.claim(at(9), at(10), 9)).toMatchObject([{ notice: { key: 'two' } }])
    expect((await damaged.index()).map((row) => row.subject).toSorted()).toEqual(['ada', 'bo'])
    await damaged.close()
    fs.writeFileSync(ada, whole)
    const restored = await openStore()
    expect(await restored.claim(at(9), at(10), 9)).toMatchObject([
      { notice: { key: 'one' } },
      { unknown: true },
    ])
  })
})

describe('a chart file', () => {
  test('that is empty, gone or another subject’s is damage, and the others work', async () => {
    const whole = await written(3)
    const cases: [string, () => void][] = [
      ['the file is empty', () => fs.writeFileSync(ada, '')],
      ['the file is gone', () => fs.rmSync(ada)],
      ['it does not fit its own hash', () => fs.copyFileSync(join(folder, 'charts', 'bo.jsonl'), ada)],
    ]
    for (const [why, harm] of cases) {
      fs.writeFileSync(ada, whole)
      forgetIndex()
      await (await openStore()).close()
      harm()
      if (why !== 'the file is gone') forgetIndex()
      const store = await openStore()
      await expect(store.read('ada')).rejects.toThrow(why)
      await expectBoUnharmed(store)
      await store.close()
    }
  })

  test('is private to the user, and so is everything beside it', async () => {
    await written(1)
    const store = await openStore()
    await store.commit(commitOf('ada', 1, { notices: [notice('one')] }))
    await store.claim(at(0), at(5), 1)
    await store.close()
    const modes = fs.readdirSync(folder, { recursive: true }).map((name) => {
      const stat = fs.statSync(join(folder, String(name)))
      return `${name} ${stat.isDirectory() ? 'folder ' : ''}${(stat.mode & 0o777).toString(8)}`
    })
    expect((fs.statSync(folder).mode & 0o777).toString(8)).toBe('700')
    expect(modes.toSorted()).toEqual([
      'charts folder 700',
      'charts/ada.jsonl 600',
      'charts/bo.jsonl 600',
      'claims.jsonl 600',
      'index.json 600',
    ])
  })

  test('that was deleted under a running bot takes no more commits', async () => {
    const store = await openStore()
    await store.commit(commitOf('ada', 0))
    await store.commit(commitOf('bo', 0))
    fs.rmSync(ada)
    const gone = 'The data folder is gone. Nothing of this was kept.'
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow(gone)
    await store.commit(commitOf('cleo', 0))
    await store.commit(commitOf('cleo', 1))
    fs.rmSync(ada.replace('ada', 'cleo'))
    await expect(store.commit(commitOf('cleo', 2))).rejects.toThrow(gone)
    await expect(store.commit(commitOf('cleo', 2))).rejects.toThrow('until the bot is started again')
    await expectBoUnharmed(store)
  })

  test('is not written when the whole folder vanishes or is replaced', async () => {
    for (const replace of [false, true]) {
      const store = await openStore()
      await store.commit(commitOf('ada', (await store.read('ada')).length))
      const { length } = await store.read('ada')
      fs.renameSync(folder, `${folder}.away`)
      if (replace) await cp(`${folder}.away`, folder, { recursive: true })
      await expect(store.commit(commitOf('ada', length))).rejects.toThrow('gone')
      if (!replace) await expect(store.commit(commitOf('new', 0))).rejects.toThrow('gone')
      if (replace) fs.rmSync(folder, { recursive: true })
      fs.renameSync(`${folder}.away`, folder)
      await store.close()
      expect(await (await openStore()).read('ada')).toHaveLength(length)
      await open.pop()?.close()
    }
  })
})

describe('a disk that fails', () => {
  /** The real disk, whose next files fail in one way. */
  function failing(way: 'write' | 'datasync' | 'truncate' | 'sync', code = 'EIO') {
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

  test('to sync closes the chart for writing, since nobody knows what it holds', async () => {
    const { fault, broken } = failing('datasync')
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
    await expect(store.commit(commitOf('ada', 1))).rejects.toThrow('left half done')
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
