import { rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import * as command from '../../src/commands/import-measures.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { openDeskAtWork } from '../desk/desk.ts'
import { folderOf, typed } from './clinic-folder.ts'

let folder: string
beforeEach(async () => {
  const work = await openDeskAtWork(['mika'])
  work.clock.pushTo('2026-03-20T12:00:00.000Z')
  folder = await folderOf(work)
})
afterEach(() => rm(folder, { recursive: true }))

async function imports(text: string, ...argv: string[]) {
  const file = join(folder, 'measures.csv')
  await writeFile(file, text)
  const by = argv.includes('--by') ? [] : ['--by', 'iben']
  return typed(command, '--file', file, ...by, ...argv, '--data', folder)
}
async function measures() {
  const store = await lowdbStore(folder)
  const entries = await store.read('mika')
  await store.close()
  return entries.filter((entry) => entry.kind === 'measure')
}

const head = 'athlete,measure,day,value,other_side,note'
const good = `${head}\r\nmika,single-hop,2026-03-19,135,150,"left, then right"\r\nmika,lefs,2026-03-19,61,,\r\n`
const mixed = `${good}mika,lefs,2026-03-21,62,,\r\nmika,LEFS!,2026-03-19,61,,\r\nada,lefs,2026-03-19,61,,\r\nmika,lefs,2026-03-19,"61,5",,\r\nmika,lefs,2026-03-18\r\nmika,lefs,2026-03-18,81,,\r\n`

describe('measures from a CSV', () => {
  test('are shown line by line first, and nothing is written', async () => {
    const { code, said } = await imports(good)
    expect(said).toContain('line 2: ok: Mika Oddvar, 2026-03-19: single-hop 135, other side 150')
    expect(said).toContain('2 of 2 lines pass.\nNothing was written.')
    expect(code).toBe(0)
    expect(await measures()).toEqual([])
  })

  test('are counted as a text editor counts, words with line ends in them too', async () => {
    const text = `${head}\r\nmika,lefs,2026-03-19,61,,"two\r\nlines"\r\nmika,nothing,2026-03-19,61,,\r\n`
    const { said } = await imports(text)
    expect(said).toContain('line 2: ok:')
    expect(said).toContain('line 4: REFUSED:')
  })

  test('are written when every line passes', async () => {
    const { code, said } = await imports(good, '--write')
    expect(said).toContain('2 written, 0 left out.')
    expect(code).toBe(0)
    expect(await measures()).toMatchObject([
      { measure: 'single-hop', value: 135, otherSide: 150, note: 'left, then right', author: 'iben' },
      { measure: 'lefs', value: 61 },
    ])
  })

  test('are refused line by line, each with its reason, and then nothing at all is written', async () => {
    const { code, said } = await imports(mixed, '--write')
    expect(said).toContain('line 4: REFUSED: That day has not come yet.')
    expect(said).toMatch(/line 5: REFUSED: measure: /)
    expect(said).toContain('line 6: REFUSED: There is no chart of ada.')
    expect(said).toContain('line 7: REFUSED: value: "61,5" is no number such as 12.5.')
    expect(said).toContain('line 8: REFUSED: 3 cells where the head has 6.')
    expect(said).toContain('line 9: REFUSED: LEFS: total: 0 to 80 points, whole numbers.')
    expect(said).toContain('Nothing was written: mend the lines')
    expect(code).toBe(1)
    expect(await measures()).toEqual([])
  })

  test('that pass are written when the therapist accepts them without the others', async () => {
    const { code, said } = await imports(mixed, '--write-passing')
    expect(said).toContain('2 written, 6 left out.')
    expect(code).toBe(1)
    expect(await measures()).toHaveLength(2)
  })

  test('taken in twice are taken in once, also when the same line stands twice in a file', async () => {
    await imports(good, '--write')
    const again = await imports(good, '--write')
    expect(again.said).toContain('line 2: REFUSED: The record holds this already.')
    const twice = await imports(`${head}\nmika,lefs,2026-03-20,70,,\nmika,lefs,2026-03-20,70,,\n`)
    expect(twice.said).toContain('line 3: REFUSED: The record holds this already.')
    expect(await measures()).toHaveLength(2)
  })

  test('come in from a spreadsheet with semicolons and its mark at the start', async () => {
    const { said } = await imports(
      '\uFEFFathlete;measure;day;value\nmika;single-hop;2026-03-19;61.5\n',
      '--write',
    )
    expect(said).toContain('1 written')
  })

  test('are not taken from somebody who does not treat the athlete', async () => {
    for (const by of ['noor', 'mika', 'sunniva']) {
      const { code, said } = await imports(good, '--write', '--by', by)
      expect([code, said.includes('REFUSED: This is for the therapist')]).toEqual([1, true])
    }
    expect(await measures()).toEqual([])
  })

  for (const [what, text, words] of [
    [
      'a head without a column that is needed',
      'athlete,measure,value\nmika,lefs,61\n',
      'line 1: REFUSED: The first line must name the columns; day missing.',
    ],
    ['a column that nobody knows', `${head},colour\n`, 'Not known, or named twice: colour.'],
    ['a quote that never ends', `${head}\nmika,lefs,2026-03-19,61,,"oh\n`, 'REFUSED: Not a table'],
    ['nothing at all', '', 'The first line must name the columns'],
  ] as const)
    test(`${what} is said, not guessed at`, async () => {
      const { code, said } = await imports(text, '--write')
      expect(said).toContain(words)
      expect(code).toBe(1)
    })
})
