import { describe, expect, test } from 'vitest'
import { athlete, type Case } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const knee: Case = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }
const findings = (prescription: { because: readonly { finding: string }[] } | undefined) =>
  prescription?.because.map(({ finding }) => finding)

describe('limits win over the ladder', () => {
  test('every other day at most, and four sessions in seven days [capin-2018]', () => {
    const moves = athlete(knee).live('2026-03-02', 9)
    expect(moves.map((move) => move.endsWith('run'))).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      true,
      false,
      true,
    ])
  })
  test('a bone does not run on two days that touch, though yesterday settled [vincent-2022]', () => {
    const ada = athlete(tibia)
    ada.live('2026-03-02', 1)
    expect(findings(ada.morning('2026-03-03'))).toContain('too-close')
    expect(ada.morning('2026-03-04')?.what).toBe('run')
  })
  test('a third level in seven days is not given, though every run settled [capin-2018]', () => {
    const ada = athlete({ ...knee, settings: { rungsUpPer7Days: 2 } })
    ada.live('2026-03-02', 6)
    const sunday = ada.morning('2026-03-08')
    // The level on which the plan begins is the first of the two.
    expect([sunday?.rung, sunday?.move]).toEqual([2, 'repeat'])
    expect(findings(sunday)).toContain('too-soon')
  })
  test('three sessions in seven days on a ladder that says so', () => {
    const ada = athlete({ tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' })
    ada.live('2026-03-02', 6)
    expect(findings(ada.morning('2026-03-08'))).toContain('week-full')
    expect(ada.morning('2026-03-09')?.what).toBe('run')
  })
  test('two days of rest on the phases that ask for it [children-hospital-2023]', () => {
    const moves = athlete({ ...knee, ladder: 'acl-nine-phases' }).live('2026-03-02', 4)
    expect(moves.map((move) => move.split(' ')[2])).toEqual(['run', 'exercise', 'exercise', 'run'])
  })
  test('a new plan gives no second run on the next day, and no new week', () => {
    const ada = athlete({ ...tibia })
    ada.live('2026-03-02', 3)
    ada.byTherapist(
      '2026-03-04',
      {
        kind: 'plan-signed',
        ladder: 'tibial-stress-reaction-lbpp',
        startRung: 1,
        days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
        ceiling: { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 },
      },
      '20:00',
    )
    expect(findings(ada.morning('2026-03-05'))).toContain('too-close')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'start', what: 'exercise' })
    expect(findings(ada.morning('2026-03-07'))).toContain('rung-full')
  })
  test('no more than so many rungs up in seven days, the stricter of ladder and tissue', () => {
    const ups = (settings: object) =>
      athlete({ ...knee, settings })
        .live('2026-03-02', 14)
        .filter((move) => move.startsWith('up') && move.endsWith('run')).length
    expect(ups({})).toBe(1)
    expect(ups({ rungsUpPer7Days: 2 })).toBe(3)
  })
  test('days that are not run days', () => {
    const ada = athlete({ ...knee, days: ['tue'] })
    expect(findings(ada.morning('2026-03-02'))).toContain('not-a-run-day')
    expect(ada.morning('2026-03-03')?.what).toBe('run')
  })
  test('what hurts today does not run today, by the rule of its tissue', () => {
    expect(findings(athlete(tibia).morning('2026-03-02', { worstPain: 1 }))).toContain('pain-today')
    expect(findings(athlete(knee).morning('2026-03-02', { morningPain: 1 }))).toContain('pain-today')
    const tendon: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' }
    expect(athlete(tendon).morning('2026-03-02', { worstPain: 5, morningPain: 5 })?.what).toBe('run')
    expect(findings(athlete(tendon).morning('2026-03-02', { worstPain: 6 }))).toContain('pain-today')
  })
  test('the ceiling keeps the run on the highest rung that fits; below the first rung there is none', () => {
    const under = (bodyWeightPct: number) =>
      athlete({ ...tibia, startRung: 3, ceiling: { bodyWeightPct, speedMps: 3.6, runMinutes: 60 } }).morning(
        '2026-03-02',
      )
    expect(under(70)).toMatchObject({ move: 'start', rung: 3 })
    expect(under(69)).toMatchObject({ move: 'back', rung: 2, what: 'run' })
    expect(under(49)).toMatchObject({ move: 'hold', what: 'rest' })
    expect(findings(under(49))).toContain('out-of-reach')
  })
  test('cleared for unloaded running runs in the LBPP treadmill and nowhere else', () => {
    const last: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', startRung: 8 }
    const unloaded = athlete({ ...last, state: 'unloaded running' }).morning('2026-03-02')
    expect(unloaded).toMatchObject({ rung: 7, dose: { on: 'lbpp-treadmill' } })
    expect(findings(unloaded)).toContain('place-not-cleared')
    expect(athlete({ ...last, state: 'ground running' }).morning('2026-03-02')).toMatchObject({
      rung: 8,
      dose: { on: 'ground' },
    })
    expect(athlete({ ...last, state: 'return to sport' }).morning('2026-03-02')?.rung).toBe(8)
  })
})
