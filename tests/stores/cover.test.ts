import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { StoreClosed, StoreDamaged } from '../../src/desk/ports.ts'
import { chartKeys, coverOf } from '../../src/stores/cover.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { verifyFolder } from '../../src/stores/mend.ts'
import { rotateKeys } from '../../src/stores/rotate.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { keepsCharts } from './contract.ts'
import { emptyFolder } from './folders.ts'

const [old, young] = [
  { id: '2025', key: randomBytes(32) },
  { id: '2026', key: randomBytes(32) },
]
let folder: string
let ada: string
beforeEach(async () => {
  folder = await emptyFolder()
  ada = join(folder, 'charts', 'ada.jsonl')
  return () => fs.rmSync(folder, { recursive: true })
})

keepsCharts('lowdb under a key', async () => {
  const own = await emptyFolder()
  const cover = coverOf([young])
  let store = await lowdbStore(own, { cover })
  return {
    store,
    async reopen() {
      await store.close()
      store = await lowdbStore(own, { cover })
      return store
    },
    async end() {
      await store.close()
      fs.rmSync(own, { recursive: true })
    },
  }
})

/** Ada's chart grows by some entries under some keys. */
async function write(keys: Parameters<typeof coverOf>[0], entries: number) {
  const store = await lowdbStore(folder, { cover: coverOf(keys) })
  for (let i = 0; i < entries; i++) {
    const { length } = await store.read('ada')
    const more = {
      entries: [{ id: `ada/${length + 1}`, words: 'night pain' }],
      notices: [notice(`n${length}`)],
    }
    await store.commit(commitOf('ada', length, more))
  }
  const kept = await store.read('ada')
  await store.close()
  return kept
}

const everything = () =>
  fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => fs.readFileSync(join(entry.parentPath, entry.name), 'utf8'))
    .join('\n')

describe('charts under a key', () => {
  test('show nothing of what was written, in no file', async () => {
    await write([young], 5)
    expect(everything()).not.toMatch(/night|told|ada\/1/)
    expect(everything()).toContain('"key":"2026"')
  })

  test('are refused without their key, or with another one of that name, and are not called damaged', async () => {
    await write([young], 5)
    const other = { id: '2026', key: randomBytes(32) }
    for (const index of ['kept', 'lost']) {
      if (index === 'lost') fs.rmSync(join(folder, 'index.json'), { force: true })
      await expect(write([], 1)).rejects.toThrow('kept under key 2026')
      await expect(write([old], 1)).rejects.toThrow('kept under key 2026')
      await expect(write([other], 1)).rejects.toThrow('is not the key')
      await expect(write([other], 1)).rejects.toThrow(StoreClosed)
    }
    expect(await write([young], 1)).toHaveLength(6)
  })

  test('go on from an uncovered past, and from an older key', async () => {
    await write([], 3)
    await write([old], 3)
    expect(ids(await write([young, old], 3))).toEqual(Array.from({ length: 9 }, (_, i) => `ada/${i + 1}`))
  })

  test('with one changed byte are damaged, as without a key', async () => {
    await write([young], 3)
    const bytes = fs.readFileSync(ada)
    bytes[bytes.length - 30] = (bytes[bytes.length - 30] ?? 0) ^ 1
    fs.writeFileSync(ada, bytes)
    const store = await lowdbStore(folder, { cover: coverOf([young]) })
    await expect(store.read('ada')).rejects.toThrow(StoreDamaged)
    await store.close()
  })

  test('are written anew under the first key, after which the older ones are not needed', async () => {
    await write([], 2)
    await write([old], 250)
    const before = await write([young, old], 2)
    const hold = await lowdbStore(folder, { cover: coverOf([young, old]) })
    await expect(rotateKeys(folder, coverOf([young, old]))).rejects.toThrow('Another process')
    await hold.settle('n0', { missed: 'late', at: at(1) })
    await hold.close()
    expect(await rotateKeys(folder, coverOf([young, old]))).toBe(1)
    expect(everything()).not.toMatch(/night|"2025"/)
    expect(await verifyFolder(folder, coverOf([young]))).toMatchObject([{ subject: 'ada', entries: 254 }])
    const store = await lowdbStore(folder, { cover: coverOf([young]), onDamage: 'refuse' })
    expect(await store.read('ada')).toEqual(before)
    expect(await store.waiting()).toBe(253)
    await store.close()
    expect(await write([young], 1)).toHaveLength(255)
  })
})

test('keys are read from one line of text, the newest first', () => {
  const encoded = young.key.toString('base64')
  expect(chartKeys('')).toEqual([])
  expect(chartKeys(`b:${encoded}, a:${old.key.toString('base64')}`)).toEqual([
    { id: 'b', key: young.key },
    { id: 'a', key: old.key },
  ])
  for (const wrong of ['a', 'a:', 'a:c2hvcnQ=', `:${encoded}`, `a b:${encoded}`])
    expect(() => chartKeys(wrong)).toThrow(StoreClosed)
})
