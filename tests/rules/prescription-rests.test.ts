import { describe, expect, test } from 'vitest'
import { allows } from '../../src/rules/prescription-dose.ts'
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
  test('each rung its own days: on the third phase two days of rest, on the fourth one [children-hospital-2023]', () => {
    const runs = (startRung: number) =>
      athlete({ ...knee, ladder: 'acl-nine-phases', startRung, settings: { stepUp: 'propose' } })
        .live('2026-03-02', 4)
        .map((move) => move.endsWith('run'))
    expect(runs(3)).toEqual([true, false, false, true])
    expect(runs(4)).toEqual([true, false, true, false])
  })
  test('of two reasons to rest the later day stands: two days by the soreness rows, one by the handout', () => {
    const ada = athlete({ ...knee, ladder: 'acl-nine-phases', startRung: 5 })
    ada.morning('2026-03-02')
    ada.run('2026-03-02', { soreness: 'warm-up-stayed' })
    expect(ada.morning('2026-03-03')?.restUntil).toBe('2026-03-04')
    const bone = athlete({ tissue: 'bone', ladder: 'stress-fracture-walk-run', startRung: 2 })
    bone.live('2026-03-02', 1)
    expect(bone.morning('2026-03-03', { worstPain: 1 })?.restUntil).toBe('2026-03-05')
  })
  test('a day of rest keeps the rung, and names the reason and where it comes from', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    ada.live('2026-03-02', 3)
    const resting = ada.morning('2026-03-05')
    expect([resting?.move, resting?.rung, resting?.what]).toEqual(['repeat', 1, 'exercise'])
    expect(resting?.because.at(-1)).toEqual({
      finding: 'too-close',
      words: '2 days from run to run at least.',
      source: 'soldiers-trial-2023',
    })
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'up', rung: 2 })
    expect(ada.morning('2026-03-07')?.because.at(-1)?.words).toBe(
      '2 days from run to run at least. The run of 2026-03-06 is not logged.',
    )
  })
  test('a bone that hurts is told so by name, another tissue by its rule', () => {
    const last = (is: Case) =>
      athlete(is).morning('2026-03-02', { worstPain: 6, morningPain: 6 })?.because.at(-1)
    expect(last(tibia)).toEqual({
      finding: 'pain-today',
      words: 'A bone that hurts today does not run today.',
      source: 'vincent-2022',
    })
    expect(last(knee)).toEqual({
      finding: 'pain-today',
      words: 'More pain today than the rule accepts: no run today.',
      source: 'white-soreness-effusion',
    })
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
  test('ready for the next rung and kept on this one by the ceiling: the same again, and why', () => {
    const ada = athlete({ ...tibia, ceiling: { bodyWeightPct: 50, speedMps: 3.6, runMinutes: 60 } })
    ada.live('2026-03-02', 7)
    const monday = ada.morning('2026-03-09')
    expect([monday?.move, monday?.rung, monday?.what]).toEqual(['repeat', 1, 'run'])
    expect(findings(monday)?.at(-1)).toBe('ceiling')
  })
  test('cleared for no running allows no place at all', () => {
    expect(allows('no running', 'lbpp-treadmill')).toBe(false)
    expect(allows('unloaded running', 'lbpp-treadmill')).toBe(true)
    expect(allows('unloaded running', 'track')).toBe(false)
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
