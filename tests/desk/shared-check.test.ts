import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, test } from 'vitest'
import { schemaFiles } from '../../src/desk/schemas.ts'
import { faultsIn } from '../../src/desk/shared-check.ts'

const folders: string[] = []
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

function clinicsOwn(change?: { file: string; from: string | RegExp; to: string }): string {
  const folder = mkdtempSync(join(tmpdir(), 'sanderling-shared-'))
  folders.push(folder)
  cpSync('shared', folder, { recursive: true })
  if (change) {
    const file = join(folder, change.file)
    const text = readFileSync(file, 'utf8')
    const edited = text.replace(change.from, change.to)
    expect(edited).not.toBe(text)
    writeFileSync(file, edited)
  }
  return folder
}

test('the shipped folder can be used', () => expect(faultsIn('shared')).toEqual([]))

describe('each fault is named by file and line, with what is wrong and what is allowed', () => {
  const rows: [string, string, string | RegExp, string, RegExp][] = [
    [
      'a percent that may mean support (T1)',
      'protocols/tendon-pain-monitored.json',
      '"bodyWeight": "carried"',
      '"bodyWeight": "support"',
      /tendon-pain-monitored\.json:\d+: bodyWeight: must be "carried"/,
    ],
    [
      'a comma too many',
      'clinic.json',
      '"emergencyNumber": "112",',
      '"emergencyNumber": "112",,',
      /clinic\.json:4: .*is there a comma too many/,
    ],
    [
      'a comma that is missing',
      'clinic.json',
      '"emergencyNumber": "112",',
      '"emergencyNumber": "112"',
      /clinic\.json:5: a comma is expected, perhaps at the end of the line before/,
    ],
    [
      'an example that does not come out',
      'protocols/knee-eight-levels-treadmill.json',
      '"walk": 0.7',
      '"walk": 0.8',
      /knee-eight-levels-treadmill\.json:\d+: examples\.1: rung 2 walks 0\.70/,
    ],
    [
      'a source that nobody lists',
      'protocols/acl-nine-phases.json',
      'children-hospital-2023',
      'somebody-1999',
      /acl-nine-phases\.json:\d+: sources\.0\.key: no source somebody-1999/,
    ],
    [
      'a remembered figure that would decide',
      'criteria/start-running-after-acl-reconstruction.json',
      /"label": "memory",\s+"gates": false/,
      '"label": "memory"',
      /\.json:\d+: lines\.\d+: .*(remembered figure never decides)/,
    ],
    [
      'a measure that there is not',
      'criteria/lbpp-to-ground.json',
      '"lines": [',
      '"lines": [{"line":"x","measure":"no-such","as":"value","atLeast":1,"words":"x","source":"common-practice","label":"common-practice"},',
      /lbpp-to-ground\.json:\d+: lines\.0\.measure: no measure no-such/,
    ],
    [
      'a default that is not among what is allowed',
      'criteria/families.json',
      '"value": 5,',
      '"value": 6,',
      /families\.json:\d+: tendon\.settings\.painDuringMost\.value: the default must be among what is allowed/,
    ],
    [
      'a bone that may hurt in the run',
      'criteria/families.json',
      '"value": 0,',
      '"value": 1,',
      /families\.json:\d+: bone\.settings\.painDuringMost/,
    ],
    [
      'a card that claims a source',
      'words/set-up-card.json',
      '"label": "common-practice"',
      '"label": "read"',
      /set-up-card\.json:2: label: must be "common-practice"/,
    ],
    [
      'an exercise in the treadmill without its percent',
      'protocols/exercises/trunk-and-balance.json',
      /"bodyWeightPct": 60,\s+/,
      '',
      /trunk-and-balance\.json:\d+: exercises\.\d\.bodyWeightPct: .*percent of body weight carried/,
    ],
    [
      'a treadmill that is no treadmill',
      'clinic.json',
      '"low": 20',
      '"low": 0',
      /clinic\.json:\d+: treadmill\.bodyWeightPct\.low/,
    ],
    ['a comma too many', 'clinic.json', '"emergencyNumber"', ',"emergencyNumber"', /clinic\.json:\d+: /],
  ]
  for (const [title, file, from, to, says] of rows)
    test(title, () => {
      const faults = faultsIn(clinicsOwn({ file, from, to }))
      expect(faults.join('\n')).toMatch(says)
    })

  test('a file that is missing, one that nobody reads, and one that says it is another', () => {
    const folder = clinicsOwn()
    rmSync(join(folder, 'words', 'set-up-card.json'))
    writeFileSync(join(folder, 'odd.json'), '{}')
    cpSync(join(folder, 'protocols', 'acl-nine-phases.json'), join(folder, 'protocols', 'mine.json'))
    expect(faultsIn(folder)).toEqual([
      expect.stringMatching(/set-up-card\.json:1: is missing/),
      expect.stringMatching(/odd\.json:1: nobody reads a file here/),
      expect.stringMatching(/mine\.json:\d+: version: acl-nine-phases\.json is acl-nine-phases@1 already/),
    ])
  })

  test('all faults are named at once, not only the first', () => {
    const folder = clinicsOwn({ file: 'clinic.json', from: '"low": 20', to: '"low": 0' })
    writeFileSync(join(folder, 'odd.json'), '{}')
    expect(faultsIn(folder)).toHaveLength(2)
  })
})

test('the schemas in shared/schemas are those that the code parses by (npm run -s sanderling -- shared schemas)', () => {
  for (const { name, text } of schemaFiles())
    expect(readFileSync(join('shared', 'schemas', name), 'utf8'), name).toBe(text)
})
