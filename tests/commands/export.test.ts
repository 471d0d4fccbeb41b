import { execFile } from 'node:child_process'
import { readdir, readFile, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import Papa from 'papaparse'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import * as command from '../../src/commands/export.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { morning, openDeskAtWork } from '../desk/desk.ts'
import { folderOf, typed } from './clinic-folder.ts'

let folder: string
let out: string
beforeEach(async () => {
  const work = await openDeskAtWork(['mika', 'adaeze'])
  work.clock.pushTo('2026-03-16T07:00:00.000Z')
  for (const id of ['mika', 'adaeze']) await work.submit(id, morning(id, '2026-03-16'))
  folder = await folderOf(work)
  out = join(folder, 'out')
})
afterEach(() => rm(folder, { recursive: true }))

const exports = (...argv: string[]) => typed(command, ...argv, '--data', folder, '--out', out)

async function exportedIn(subject: string) {
  const store = await lowdbStore(folder)
  const entries = await store.read(subject)
  await store.close()
  return entries.filter((entry) => entry.kind === 'exported')
}

describe('sanderling export', () => {
  for (const [form, files] of [
    ['pdf', ['mika.progress-report.pdf']],
    ['fhir', ['mika.fhir.json']],
    ['ics', ['mika.ics']],
    ['all', ['mika.zip']],
  ] as const)
    test(`--as ${form} writes ${files}, readable by its owner alone, and a page of the chart before it`, async () => {
      const { code, said } = await exports('--athlete', 'mika', '--as', form, '--for', 'Dr Example')
      expect(said).toContain(`1 of 1 exported as ${form} for Dr Example, by sunniva`)
      expect(code).toBe(0)
      expect(await readdir(out)).toEqual(files)
      expect((await stat(join(out, files[0]))).mode & 0o777).toBe(0o600)
      expect(await exportedIn('mika')).toMatchObject([{ what: form, for: 'Dr Example', author: 'sunniva' }])
    })

  test('--every puts all athletes into the same tables, and leaves nothing half done', async () => {
    const { code } = await exports('--every', '--as', 'csv')
    expect(code).toBe(0)
    const names = await readdir(out)
    expect(names.filter((name) => name.endsWith('.part'))).toEqual([])
    const text = await readFile(join(out, 'check-ins.csv'), 'utf8')
    const rows = Papa.parse<{ athlete: string }>(text, { header: true, skipEmptyLines: true }).data
    expect(rows.map((row) => row.athlete)).toEqual(['adaeze', 'mika'])
    expect(await exportedIn('adaeze')).toHaveLength(1)
  })

  test('--squad takes those who train under a coach; the coach may take none', async () => {
    expect((await exports('--squad', 'noor', '--as', 'ics')).said).toContain('2 of 2 exported')
    const refused = await exports('--squad', 'noor', '--as', 'pdf', '--by', 'noor')
    expect(refused.code).toBe(1)
    expect(refused.said).toContain('0 of 2 exported')
    expect(await exportedIn('mika')).toHaveLength(1)
  })

  test('says what it needs when it is not told, and writes nothing', async () => {
    expect((await exports('--athlete', 'mika', '--as', 'docx')).code).toBe(2)
    expect((await exports('--athlete', 'mika', '--every', '--as', 'pdf')).code).toBe(2)
    expect((await exports('--athlete', 'mika', '--as', 'pdf', '--by', 'nobody')).said).toContain('--by')
    expect(await exportedIn('mika')).toEqual([])
  })

  test('of nobody says so', async () => {
    const { code, said } = await exports('--athlete', 'nobody', '--as', 'pdf')
    expect(code).toBe(1)
    expect(said).toContain('There is no chart of this athlete')
  })

  test('waits for the bot to be stopped', async () => {
    const store = await lowdbStore(folder)
    const { code, said } = await exports('--athlete', 'mika', '--as', 'pdf')
    await store.close()
    expect(code).toBe(1)
    expect(said).toMatch(/process/i)
  })
})

describe('a whole clinic', () => {
  test('goes out in a heap much smaller than its charts: memory does not grow with the clinic', async () => {
    const heap = '--max-old-space-size=128'
    const bench = [
      heap,
      '--import',
      'tsx',
      'src/cli.ts',
      'bench-export',
      '--athletes',
      '400',
      '--days',
      '150',
    ]
    const { stdout } = await promisify(execFile)(process.execPath, bench, { timeout: 240_000 })
    expect(stdout).toContain('200 of 400 …')
    expect(stdout).toContain('400 of 400 exported as csv')
    const [, megabytes] = stdout.match(/, (\d+) MB of charts/) ?? []
    const [, heapMb] = stdout.match(/heap at most (\d+) MB/) ?? []
    // As text; folded into objects they are several times that.
    expect(Number(megabytes)).toBeGreaterThan(50)
    expect(Number(heapMb)).toBeLessThan(128)
  }, 300_000)
})
