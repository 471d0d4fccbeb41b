import { readdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import * as command from '../../src/commands/erase.ts'
import { keepClock } from '../../src/commands/rehearsed-clock.ts'
import { uncovered } from '../../src/stores/cover.ts'
import { verifyFolder } from '../../src/stores/mend.ts'
import { morning, openDeskAtWork } from '../desk/desk.ts'
import { folderOf, typed } from './clinic-folder.ts'

let folder: string
beforeEach(async () => {
  const work = await openDeskAtWork(['mika', 'adaeze'])
  work.clock.pushTo('2026-03-16T07:00:00.000Z')
  await work.submit('mika', morning('mika', '2026-03-16', { note: 'a word of Mika' }))
  folder = await folderOf(work)
})
afterEach(() => rm(folder, { recursive: true }))

const erases = (...argv: string[]) => typed(command, ...argv, '--data', folder)
const asked = ['--athlete', 'mika', '--why', 'Asked for.', '--law', 'Act 7.', '--before-its-time'] as const
const chart = () => readFile(join(folder, 'charts', 'mika.jsonl'), 'utf8')

describe('sanderling erase', () => {
  test('happens only to the athlete whose id is typed twice', async () => {
    expect((await erases(...asked)).code).toBe(2)
    expect((await erases(...asked, '--sure', 'adaeze')).code).toBe(2)
    expect(await chart()).toContain('a word of Mika')
  })

  test('leaves one line that says who, when, why and which law', async () => {
    const { code, said } = await erases(...asked, '--sure', 'mika')
    expect(said).toContain('erased by sunniva at 2026-03-16T07:00:00.000Z. Act 7.')
    expect(said).toContain('1 of its entries gave way to tombstones')
    expect(said).toMatch(/Not reached.*backups.*exported.*chat platform.*store restore.*id of the chart/s)
    expect(code).toBe(0)
    const left = await chart()
    expect(left).not.toContain('a word of Mika')
    expect(left.trim().split('\n')).toHaveLength(1)
    expect(left).toContain('"kind":"erased"')
    expect((await readdir(join(folder, 'charts'))).toSorted()).toContain('adaeze.jsonl')
  })

  test('reaches every file of the folder but for the id, and what is left is as sound as before', async () => {
    await erases(...asked, '--sure', 'mika')
    const files = ['charts/mika.jsonl', 'charts/clinic.jsonl', 'charts/adaeze.jsonl', 'index.json']
    for (const file of files) {
      const text = await readFile(join(folder, file), 'utf8')
      expect(text, file).not.toContain('Mika Oddvar')
      expect(text, file).not.toContain('U1MIKA')
    }
    expect(await readFile(join(folder, 'charts', 'clinic.jsonl'), 'utf8')).not.toContain('mika')
    for (const { subject, wrong } of await verifyFolder(folder, uncovered))
      expect(wrong, subject).toBeUndefined()
    expect((await erases()).code).toBe(0)
  })

  test('is refused to a therapist, in words', async () => {
    const { code, said } = await erases(...asked, '--sure', 'mika', '--by', 'iben')
    expect([code, said]).toEqual([1, 'This is for the clinic lead. Please ask them.'])
  })

  test('lists whose time is over, and erases nothing by itself', async () => {
    expect((await erases()).said).toContain('0 charts are past their time')
    keepClock(folder, { now: () => '2036-03-17T10:00:00.000Z' })
    expect((await erases()).said).toContain('mika: kept until 2036-03-16.')
    expect(await chart()).toContain('a word of Mika')
  })
})
