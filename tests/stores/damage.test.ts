import fs from 'node:fs'
import { cp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import { type Store, StoreClosed, StoreDamaged } from '../../src/desk/ports.ts'
import { uncovered } from '../../src/stores/cover.ts'
import { readLines } from '../../src/stores/line.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import type { LowdbOptions } from '../../src/stores/lowdb-options.ts'
import { at, commitOf, notice } from './commits.ts'
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
    // Four thousand starts of a store: on a busy disk that takes its time.
  }, 300_000)

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
