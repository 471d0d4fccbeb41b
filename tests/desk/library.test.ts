import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { openLibrary } from '../../src/desk/library.ts'

const folders: string[] = []

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

test('the shipped library opens, and finds a ladder by id and by id and version [vincent-2022]', () => {
  const library = openLibrary('shared')
  const byId = library.ladder('tibial-stress-reaction-lbpp')
  expect(byId?.rungs.map((rung) => rung.bodyWeightPct)).toEqual([50, 60, 70, 80, 90, 100])
  expect(library.ladder('tibial-stress-reaction-lbpp@1')?.id).toBe('tibial-stress-reaction-lbpp')
  expect(library.ladder('tibial-stress-reaction-lbpp@999')).toBeUndefined()
})

const faults = [
  {
    what: 'a ladder whose own example fails',
    from: '"low": 5, "high": 15',
    to: '"low": 5, "high": 16',
    says: /\.json:\d+: .*5 to 15 minutes/,
  },
  {
    what: 'a ladder that means support',
    from: '"bodyWeight": "carried"',
    to: '"bodyWeight": "support"',
    says: /\.json:\d+: .*carried/,
  },
  {
    what: 'a ladder with a key that nobody knows',
    from: '"bodyWeight": "carried"',
    to: '"bodyWeight": "carried", "speed": 3',
    says: /\.json:\d+/,
  },
  { what: 'a file that is cut off', from: /\}\s*$/, to: '', says: /\.json:\d+: / },
]
for (const { what, from, to, says } of faults)
  test(`${what} is refused, by file and line`, () => {
    const folder = mkdtempSync(join(tmpdir(), 'sanderling-shared-'))
    folders.push(folder)
    cpSync('shared', folder, { recursive: true })
    const file = join(folder, 'protocols', 'tibial-stress-reaction-lbpp.json')
    const text = readFileSync(file, 'utf8').replace(
      /\{\s*"low": (\d+),\s*"high": (\d+)\s*\}/g,
      '{ "low": $1, "high": $2 }',
    )
    const changed = text.replace(from, to)
    expect(changed).not.toBe(text)
    writeFileSync(file, changed)
    expect(() => openLibrary(folder)).toThrow(says)
  })
