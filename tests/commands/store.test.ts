import fs from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import { run } from '../../src/commands/store.ts'
import type { StoreSettings } from '../../src/config.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { at, commitOf, ids, notice } from '../stores/commits.ts'
import { emptyFolder } from '../stores/folders.ts'

let folder: string
let ada: string
let more: Partial<StoreSettings> = {}
beforeEach(async () => {
  more = {}
  folder = await emptyFolder()
  ada = join(folder, 'charts', 'ada.jsonl')
  const store = await lowdbStore(folder)
  for (let length = 0; length < 5; length++) {
    await store.commit(commitOf('ada', length, { notices: [notice(`n${length}`)] }))
    await store.commit(commitOf('bo', length))
  }
  await store.close()
})
afterEach(() => fs.rmSync(folder, { recursive: true }))

async function say(...argv: string[]) {
  const lines: string[] = []
  const settings = { kind: 'lowdb', dataFolder: folder, database: '', chartKeys: '' } as const
  const code = await run(argv, (line) => lines.push(line), { ...settings, ...more })
  return { code, text: lines.join('\n') }
}

function flip(place: number) {
  const bytes = fs.readFileSync(ada)
  bytes[place] = (bytes[place] ?? 0) ^ 1
  fs.writeFileSync(ada, bytes)
}
const startOfLine = (line: number) =>
  fs
    .readFileSync(ada, 'utf8')
    .split('\n')
    .slice(0, line - 1)
    .join('\n').length + 1

describe('sanderling store', () => {
  test('verify says that all is well, and changes nothing', async () => {
    const before = fs.readFileSync(ada)
    const { code, text } = await say('verify')
    expect(code).toBe(0)
    expect(text).toMatch(/ada +5 entries +5 writes +ok\nbo .*ok\n2 charts, 0 damaged/)
    expect(fs.readFileSync(ada)).toEqual(before)
  })

  test('verify names the line and the way to mend it', async () => {
    flip(startOfLine(3) + 100)
    const { code, text } = await say('verify')
    expect(code).toBe(1)
    expect(text).toMatch(/ada +2 entries +2 writes +DAMAGED line 3: it does not fit its own hash/)
    expect(text).toContain('sanderling store restore ada')
  })

  test('verify tells a write that was never acknowledged from damage', async () => {
    fs.appendFileSync(ada, '["half')
    const { code, text } = await say('verify')
    expect(code).toBe(0)
    expect(text).toContain('ok, and 6 bytes of a write that was never acknowledged')
  })

  test('verify misses lines that the index knows, and a file that is gone', async () => {
    fs.truncateSync(ada, startOfLine(5))
    fs.rmSync(join(folder, 'charts', 'bo.jsonl'))
    const { code, text } = await say('verify')
    expect(code).toBe(1)
    expect(text).toMatch(/ada .*DAMAGED line 5: lines that were kept are missing\nbo .*the file is gone/)
  })

  test('restore keeps what can be trusted, and the file as it was, and says what was lost', async () => {
    flip(startOfLine(3) + 100)
    const harmed = fs.readFileSync(ada)
    const { code, text } = await say('restore', 'ada')
    expect(code).toBe(0)
    expect(text).toContain('ada: 2 entries can be trusted, the last is ada/2.')
    expect(text).toMatch(/legible in it.*ada\/4\n.*ada\/5$/s)
    expect(fs.readFileSync(`${ada}.damaged-1`)).toEqual(harmed)
    const store = await lowdbStore(folder, { onDamage: 'refuse' })
    expect(ids(await store.read('ada'))).toEqual(['ada/1', 'ada/2'])
    expect(await store.due(at(0), 9)).toContain('ada')
    expect(await store.waiting()).toBe(2)
    expect(await store.commit(commitOf('ada', 2))).toEqual({ committed: true, length: 3 })
    expect(firstBreak(await store.read('ada'))).toBeUndefined()
    expect(await store.read('bo')).toHaveLength(5)
    await store.close()
  })

  test('restore of a chart of which nothing is left makes room for a new one', async () => {
    for (const harm of [
      () => flip(3),
      () => fs.rmSync(ada, { force: true }),
      () => fs.writeFileSync(ada, ''),
    ]) {
      harm()
      await say('restore', 'ada')
      const store = await lowdbStore(folder, { onDamage: 'refuse' })
      expect(await store.commit(commitOf('ada', 0))).toEqual({ committed: true, length: 1 })
      await store.close()
    }
    expect(fs.readdirSync(join(folder, 'charts')).filter((name) => name.includes('damaged'))).toHaveLength(3)
  })

  test('restore leaves a sound chart alone', async () => {
    const before = fs.readFileSync(ada)
    expect(await say('restore', 'ada')).toEqual({ code: 0, text: 'ada: nothing to mend.' })
    expect(fs.readFileSync(ada)).toEqual(before)
  })

  test('restore does not touch a folder that the bot works with', async () => {
    const store = await lowdbStore(folder)
    const { code, text } = await say('restore', 'ada')
    expect(code).toBe(1)
    expect(text).toContain('Another process')
    await store.close()
  })

  test('rotate puts every chart under the first key, and says which', async () => {
    more = { chartKeys: `2026:${Buffer.alloc(32, 7).toString('base64')}` }
    expect(await say('rotate')).toMatchObject({
      code: 0,
      text: expect.stringContaining('2 charts are kept under key 2026'),
    })
    expect(fs.readFileSync(ada, 'utf8')).not.toContain('worstPain')
    expect((await say('verify')).text).toContain('2 charts, 0 damaged')
    more = {}
    expect(await say('verify')).toMatchObject({
      code: 1,
      text: expect.stringContaining('kept under key 2026'),
    })
  })

  test('move and migrate ask for the database by the name of its setting', async () => {
    for (const argv of [['migrate'], ['move', '--from', 'lowdb', '--to', 'postgres']])
      expect(await say(...argv)).toMatchObject({
        code: 1,
        text: expect.stringContaining('SANDERLING_DATABASE'),
      })
    expect((await say('move', '--from', 'lowdb', '--to', 'lowdb')).code).toBe(2)
  })

  test('says how it is used', async () => {
    expect(await say('nonsense')).toMatchObject({
      code: 2,
      text: expect.stringContaining('sanderling store verify'),
    })
  })
})
