import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/decide.ts'
import { athlete } from '../rules/life.ts'
import { asked } from './asked.ts'

const folder = mkdtempSync(join(tmpdir(), 'sanderling-decide-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const ada = athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' })
ada.live('2026-03-02', 2)
ada.morning('2026-03-04')
const at = ['--at', '2026-03-04T07:05:00Z']

function kept(name: string, text: string): string {
  writeFileSync(join(folder, name), text)
  return join(folder, name)
}
const array = kept('array.json', JSON.stringify(ada.entries()))
const object = kept('object.json', JSON.stringify({ athlete: 'ada', entries: ada.entries() }))
const lines = kept(
  'lines.jsonl',
  ada
    .entries()
    .map((entry) => JSON.stringify(entry))
    .join('\n'),
)
const commits = kept(
  'commits.jsonl',
  `${JSON.stringify({ entries: ada.entries().slice(0, 5) })}\n${JSON.stringify({ entries: ada.entries().slice(5) })}\n`,
)

describe('decide', () => {
  test('the JSON holds disposition, move, prescription and because, and nothing else', async () => {
    const { exit, out } = await asked(run, ['--chart', array, ...at, '--json'])
    expect(exit).toBe(0)
    const decided = JSON.parse(out)
    expect(Object.keys(decided)).toEqual(['disposition', 'move', 'prescription', 'because'])
    expect(decided).toMatchObject({
      disposition: 'continue',
      move: 'repeat',
      prescription: { what: 'run', rung: 1 },
    })
  })
  test('an array, an object with entries, an entry a line, a commit a line: the same chart', async () => {
    const outs = await Promise.all(
      [array, object, lines, commits].map((chart) => asked(run, ['--chart', chart, ...at, '--json'])),
    )
    expect(new Set(outs.map(({ out }) => out)).size).toBe(1)
  })
  test('the chart is read as it stood at the instant, in any zone', async () => {
    const early = await asked(run, ['--chart', array, '--at', '2026-03-04T06:59:00Z', '--json'])
    expect(JSON.parse(early.out)).toMatchObject({ disposition: 'waiting', prescription: null })
    const offset = await asked(run, ['--chart', array, '--at', '2026-03-04T09:05:00+02:00', '--json'])
    expect(JSON.parse(offset.out).disposition).toBe('continue')
  })
  test('in words: what, why and the sources', async () => {
    const { out } = await asked(run, ['--chart', array, ...at])
    expect(out).toContain('prescription: run, rung 1 of tibial-stress-reaction-lbpp@1')
    expect(out).toContain('at 50 % of body weight')
    expect(out).toContain('[vincent-2022]')
  })
  test('what-if shows the other decision beside today, and several answers may be others', async () => {
    const { out } = await asked(run, [
      '--chart',
      array,
      ...at,
      '--json',
      '--what-if',
      'worst-pain=2',
      '--what-if',
      'swelling=yes',
    ])
    expect(JSON.parse(out)).toMatchObject({ today: { move: 'repeat' }, whatIf: { move: 'back' } })
    const inWords = await asked(run, ['--chart', array, ...at, '--what-if', 'worst-pain=3'])
    expect(inWords.out).toContain('If worst-pain=3:')
  })
})

describe('bad input is turned away in one line, with 2', () => {
  const rows: [string, string[], string][] = [
    ['no chart', at, 'Say --chart'],
    ['no instant', ['--chart', array], 'Say --chart'],
    ['an instant without a zone', ['--chart', array, '--at', '2026-03-04T07:05:00'], 'an instant such as'],
    ['a file that is not there', ['--chart', join(folder, 'none.json'), ...at], 'cannot be read'],
    [
      'a file that is no chart',
      ['--chart', kept('bad.json', '{"entries": [{"kind": "check-in"}]}'), ...at],
      'entry 1',
    ],
    ['a line that is not JSON', ['--chart', kept('bad.jsonl', 'not json'), ...at], 'line 1 is not JSON'],
    [
      'two athletes in one file',
      [
        '--chart',
        kept('two.json', JSON.stringify([...ada.entries(), { ...ada.entries()[0], athlete: 'mika' }])),
        ...at,
      ],
      'a chart is of one athlete',
    ],
    ['a what-if that nobody asks', ['--chart', array, ...at, '--what-if', 'mood=3'], 'no answer called mood'],
    ['an option that there is not', ['--chrat', array], 'Accepted: --chart'],
    ['a shared folder that cannot be used', ['--chart', array, ...at, '--shared', folder], 'clinic.json'],
  ]
  for (const [title, argv, words] of rows)
    test(title, async () => {
      const { exit, err, out } = await asked(run, argv)
      expect([exit, out]).toEqual([2, ''])
      expect(err).toContain(words)
    })
})
