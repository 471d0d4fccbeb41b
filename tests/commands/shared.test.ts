import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { run as build } from '../../src/commands/build.ts'
import { run as scenario } from '../../src/commands/scenario.ts'
import { run as shared } from '../../src/commands/shared.ts'
import { asked } from './asked.ts'

const folder = mkdtempSync(join(tmpdir(), 'sanderling-commands-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('shared', () => {
  test('check: 0 and a sentence when the folder can be used', async () => {
    expect(await asked(shared, ['check'])).toEqual({ exit: 0, out: 'shared can be used.', err: '' })
  })
  test('check: 1 and the faults when it cannot', async () => {
    cpSync('shared', join(folder, 'own'), { recursive: true })
    writeFileSync(join(folder, 'own', 'odd.json'), '{}')
    const { exit, out } = await asked(shared, ['check', join(folder, 'own')])
    expect(exit).toBe(1)
    expect(out).toMatch(/odd\.json:1: .*\n1 to mend in /)
  })
  test('schemas are written where they are asked for', async () => {
    const { exit } = await asked(shared, ['schemas', folder])
    expect([exit, existsSync(join(folder, 'schemas', 'entry.schema.json'))]).toEqual([0, true])
  })
  test('anything else is turned away', async () => {
    expect((await asked(shared, [])).exit).toBe(2)
    expect((await asked(shared, ['mend'])).exit).toBe(2)
    expect((await asked(shared, ['check', join(folder, 'none')])).err).toContain('There is no folder')
  })
})

describe('scenario', () => {
  const golden = 'tests/scenarios/v12-two-days-of-silence.json'
  test('as written: 0', async () => {
    const { exit, out } = await asked(scenario, [golden])
    expect([exit, out.includes('1 of 1 scenarios as written.')]).toEqual([0, true])
  })
  test('different: 1, and what differs', async () => {
    const other = JSON.parse(readFileSync(golden, 'utf8'))
    other.expect = { move: 'up', prescription: { rung: 4 }, because: ['settled-and-done'] }
    const file = join(folder, 'other.json')
    writeFileSync(file, JSON.stringify(other))
    const { exit, out } = await asked(scenario, [golden, file])
    expect(exit).toBe(1)
    expect(out).toContain('move is hold, expected up')
    expect(out).toContain('prescription is null, expected {"rung":4}')
    expect(out).toContain('because has no-check-in; expected settled-and-done')
    expect(out).toContain('1 of 2 scenarios as written.')
  })
  test('no file, no such file, no scenario: 2', async () => {
    expect((await asked(scenario, [])).exit).toBe(2)
    expect((await asked(scenario, [join(folder, 'none.json')])).err).toContain('there is no such file')
    writeFileSync(join(folder, 'empty.json'), '{"about": "x", "entries": [], "at": "", "expect": {}}')
    expect((await asked(scenario, [join(folder, 'empty.json')])).exit).toBe(2)
  })
})

describe('build', () => {
  test('a start at 50 % and a goal of 30 minutes on the ground: every rung with its cost, as a draft', async () => {
    const { exit, out } = await asked(build, [])
    expect(exit).toBe(0)
    expect(out).toMatch(/ 1 {2}LBPP .* 50 % .* 10 +2 x 5 +0\.83-1\.45 .* start\n/)
    expect(out).toMatch(/ 3 x 10 .* 6 to 3 bouts\n/)
    expect(out).toContain('Peak force and load are in body weights, from the light to the heavy end')
    expect(out).toMatch(/ground .* 30 .* from the treadmill to the ground\n/)
    expect(out).toContain('DRAFT: nobody runs it until a therapist has signed it.')
  })
  test('as JSON it is a ladder', async () => {
    const { out } = await asked(build, [
      '--json',
      '--tissue',
      'tendon',
      '--body-weight',
      '60%',
      '--goal-on',
      'lbpp-treadmill',
    ])
    expect(JSON.parse(out)).toMatchObject({
      id: 'built-tendon-from-60',
      tissues: ['tendon'],
      bodyWeight: 'carried',
    })
  })
  test('what cannot be built or read is turned away with 2', async () => {
    expect((await asked(build, ['--force-rise', '1%'])).err).toContain('smallest step')
    expect((await asked(build, ['--body-weight', '50'])).exit).toBe(2)
    expect((await asked(build, ['--goal-on', 'moon'])).err).toContain('--goal-on ground')
    expect((await asked(build, ['--tissue', 'wood'])).err).toContain('--tissue bone')
    expect((await asked(build, ['--speed', 'fast'])).exit).toBe(2)
  })
})
