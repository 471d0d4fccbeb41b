import { describe, expect, test } from 'vitest'
import type { Bout, Dose } from '../../src/chart/dose.ts'
import { easiest } from '../../src/rules/prescription-dose.ts'
import { athlete, type Case } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const knee: Case = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }
const findings = (prescription: { because: readonly { finding: string }[] } | undefined) =>
  prescription?.because.map(({ finding }) => finding)

describe('silence', () => {
  test('a run that was prescribed and not logged: no run the next day, no step up until it is said', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', startRung: 2 })
    ada.live('2026-03-02', 4)
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'up', rung: 3, what: 'run' })
    const next = ada.morning('2026-03-07')
    expect(next).toMatchObject({ move: 'repeat', rung: 2, what: 'exercise' })
    expect(findings(next)).toEqual(['response-settled', 'not-logged', 'too-close'])
    ada.handIn('ada', 'athlete', '2026-03-07T08:00:00.000Z', { kind: 'run-skipped', day: '2026-03-06' })
    expect(ada.morning('2026-03-08')).toMatchObject({ move: 'up', what: 'run', rung: 3 })
  })
  test('logged late, it counts on the day on which it was run', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', startRung: 2 })
    ada.morning('2026-03-02')
    ada.morning('2026-03-03')
    ada.morning('2026-03-04')
    ada.run('2026-03-04')
    ada.run('2026-03-02', { painDuring: 4 })
    ada.morning('2026-03-05')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 2 })
  })
  test('a run cut short may settle and still does not count as the rung done', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    const short = {
      bouts: [{ gait: 'run', bodyWeightPct: 100, speedMps: 2.5, inclinePct: 0, minutes: 3, repeats: 1 }],
    }
    ada.live('2026-03-02', 4, (day) => (day === '2026-03-04' ? { run: short } : {}))
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 1 })
    const light = {
      bouts: [{ gait: 'run', bodyWeightPct: 60, speedMps: 2.5, inclinePct: 0, minutes: 1, repeats: 5 }],
    }
    const mika = athlete({ ...tibia, startRung: 3 })
    mika.live('2026-03-02', 7, () => ({ run: light }))
    expect(mika.morning('2026-03-09')).toMatchObject({ move: 'repeat', rung: 3 })
  })
})

describe('steps', () => {
  test('proposed instead of offered where the therapist signs each step, and the therapist is told once', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', settings: { stepUp: 'propose' } })
    ada.live('2026-03-02', 3)
    expect(ada.morning('2026-03-05')?.what).toBe('exercise')
    expect(ada.notices()).toContain('note to iben')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 1, proposedRung: 2, what: 'run' })
    expect(ada.notices()).not.toContain('note to iben')
  })
  test('back from the first rung is the first rung at its easiest', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    ada.live('2026-03-02', 2, () => ({ run: { painDuring: 1 } }))
    const eased = ada.morning('2026-03-04')
    expect(eased).toMatchObject({ move: 'back', rung: 1, what: 'run' })
    expect(eased?.dose?.bouts[0]?.repeats).toEqual({ low: 2, high: 2 })
    expect(eased?.dose?.bouts[0]?.speedMps?.high).toBe(eased?.dose?.bouts[0]?.speedMps?.low)
  })
  test('the easiest reading is the shortest and slowest; a step to a lower rung, or the same again, is not eased', () => {
    const bout: Bout = {
      gait: 'run',
      bodyWeightPct: 60,
      inclinePct: 0,
      repeats: { low: 4, high: 5 },
      minutes: { low: 1, high: 3 },
      speedMps: { low: 2, high: 3 },
    }
    const walk: Bout = {
      gait: 'walk',
      bodyWeightPct: 60,
      inclinePct: 0,
      repeats: { low: 1, high: 1 },
      distanceM: 160,
    }
    const dose: Dose = { on: 'lbpp-treadmill', warmUpMinutes: 5, bouts: [bout, walk], coolDownMinutes: 5 }
    expect(easiest(dose).bouts).toEqual([
      { ...bout, repeats: { low: 4, high: 4 }, minutes: { low: 1, high: 1 }, speedMps: { low: 2, high: 2 } },
      walk,
    ])
    const ada = athlete({ ...tibia, startRung: 3 })
    ada.live('2026-03-02', 2)
    expect(ada.morning('2026-03-04')?.dose?.bouts[0]?.minutes).toEqual({ low: 1, high: 3 })
    ada.run('2026-03-04')
    ada.morning('2026-03-05', { worstPain: 1 })
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'back', rung: 2 })
    expect(ada.chart().prescriptions.at(-1)?.dose?.bouts[0]?.minutes).toEqual({ low: 1, high: 2 })
  })
  test('pain in the day after the run: more support and shorter bouts, and slower if it comes again [vincent-2022]', () => {
    const ada = athlete({ ...tibia, startRung: 4 })
    const before = ada.morning('2026-03-02')
    ada.run('2026-03-02')
    ada.morning('2026-03-03', { worstPain: 1 })
    const after = ada.morning('2026-03-04')
    const of = (dose: typeof before) => dose?.dose?.bouts[0]
    expect(after).toMatchObject({ move: 'back', what: 'run' })
    expect([of(before)?.bodyWeightPct, of(after)?.bodyWeightPct]).toEqual([80, 70])
    expect([of(before)?.minutes?.low, of(after)?.minutes?.low]).toEqual([2, 1])
    expect(of(after)?.speedMps?.high).toBeLessThan(of(before)?.speedMps?.high ?? 0)
    expect(after?.during).toMatchObject({ painMost: 0, lowerBodyWeightPct: 10, lowerSpeedPct: 10 })
  })
  test('pain after a stress fracture: three days without a run and one stage back [stress-fracture-handout]', () => {
    const ada = athlete({ tissue: 'bone', ladder: 'stress-fracture-walk-run', startRung: 4 })
    ada.morning('2026-03-02')
    ada.run('2026-03-02')
    expect(ada.morning('2026-03-03', { worstPain: 1 })).toMatchObject({
      move: 'back',
      rung: 3,
      restUntil: '2026-03-05',
      what: 'exercise',
    })
    ada.morning('2026-03-04')
    expect(ada.morning('2026-03-05')?.what).toBe('exercise')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'back', rung: 3, what: 'run' })
  })
  test('days without a run name the signed exercises; a run says what to do on pain', () => {
    const ada = athlete({ ...tibia, programme: 'trunk-and-balance' })
    expect(ada.morning('2026-03-02')?.during).toEqual({
      painMost: 0,
      lowerBodyWeightPct: 10,
      leastBodyWeightPct: 20,
      lowerSpeedPct: 10,
      source: 'vincent-2022',
    })
    ada.run('2026-03-02')
    expect(ada.morning('2026-03-03')).toMatchObject({ what: 'exercise', programme: 'trunk-and-balance@1' })
    expect(athlete(knee).morning('2026-03-02')?.during).toMatchObject({
      painMost: 2,
      lowerBodyWeightPct: 0,
      leastBodyWeightPct: 100,
    })
  })
})
