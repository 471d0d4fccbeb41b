import { describe, expect, test } from 'vitest'
import { standing } from '../../src/rules/standing.ts'
import { athlete, type Case } from './life.ts'

const phases: Case = { tissue: 'muscle', ladder: 'walk-run-six-phases', startRung: 2 }
const now = (ada: ReturnType<typeof athlete>, day: string) => standing(ada.chart(), day)

describe('where an athlete stands on the ladder', () => {
  test('before the first run: the rung the therapist chose, nothing done', () => {
    expect(now(athlete(phases), '2026-03-02')).toEqual({
      rung: 2,
      timesDone: 0,
      last: undefined,
      lastRunDay: undefined,
      unlogged: undefined,
      runsIn7Days: 0,
      runsOnRungIn7Days: 0,
      rungsUpIn7Days: 0,
    })
  })
  test('after two settled runs and a third a rung up', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 6)
    expect(now(ada, '2026-03-07')).toMatchObject({
      rung: 3,
      timesDone: 1,
      lastRunDay: '2026-03-06',
      runsIn7Days: 3,
      runsOnRungIn7Days: 1,
      rungsUpIn7Days: 2,
    })
  })
  test('a week is seven days: the first run of Monday counts on Sunday and not on the Monday after', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 1)
    expect(now(ada, '2026-03-08')).toMatchObject({ runsIn7Days: 1, runsOnRungIn7Days: 1, rungsUpIn7Days: 1 })
    expect(now(ada, '2026-03-09')).toMatchObject({ runsIn7Days: 0, runsOnRungIn7Days: 0, rungsUpIn7Days: 0 })
  })
  test('looking back at a day, runs after it do not fill its week', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 4)
    expect(now(ada, '2026-03-02')?.runsIn7Days).toBe(1)
    expect(now(ada, '2026-03-03')?.runsIn7Days).toBe(1)
  })
  test('times done are those in a row on this rung that settled', () => {
    const ada = athlete({ ...phases, ladder: 'stress-fracture-walk-run', tissue: 'bone', startRung: 1 })
    ada.live('2026-03-02', 4)
    expect(now(ada, '2026-03-05')?.timesDone).toBe(2)
    expect(now(ada, '2026-03-04')?.timesDone).toBe(0)
    ada.live('2026-03-06', 2)
    expect(now(ada, '2026-03-07')?.timesDone).toBe(3)
    ada.morning('2026-03-08', { worstPain: 1 })
    expect(now(ada, '2026-03-08')?.timesDone).toBe(0)
  })
  test('and they are not counted further than the rung asks for', () => {
    const ada = athlete({ ...phases, settings: { stepUp: 'propose' } })
    ada.live('2026-03-02', 8)
    expect(now(ada, '2026-03-09')?.timesDone).toBe(2)
  })
  test('a run counts for four weeks: on the 28th day after it, and not on the 29th', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 2)
    expect(now(ada, '2026-03-30')?.timesDone).toBe(1)
    expect(now(ada, '2026-03-31')?.timesDone).toBe(0)
  })
  test('back on a rung, what was done there before does not count again', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 5)
    ada.morning('2026-03-07', { worstPain: 1 })
    ada.live('2026-03-08', 2)
    expect(now(ada, '2026-03-09')).toMatchObject({ rung: 2, timesDone: 1 })
  })
  test('a new plan is a new start for the rung, and no new week', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 4)
    ada.byTherapist(
      '2026-03-05',
      {
        kind: 'plan-signed',
        ladder: 'walk-run-six-phases',
        startRung: 1,
        days: ['mon'],
        ceiling: { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 },
      },
      '20:00',
    )
    expect(now(ada, '2026-03-06')).toMatchObject({
      rung: 1,
      timesDone: 0,
      last: undefined,
      lastRunDay: '2026-03-04',
      runsIn7Days: 2,
      rungsUpIn7Days: 0,
    })
  })
})

describe('a prescribed run of which nobody said anything', () => {
  test('counts as run in the week, and holds the next step until it is said', () => {
    const ada = athlete(phases)
    ada.live('2026-03-02', 2)
    ada.morning('2026-03-04')
    expect(now(ada, '2026-03-04')).toMatchObject({ unlogged: undefined, runsIn7Days: 1 })
    expect(now(ada, '2026-03-05')).toMatchObject({
      unlogged: '2026-03-04',
      lastRunDay: '2026-03-04',
      runsIn7Days: 2,
    })
    ada.handIn('ada', 'athlete', '2026-03-05T08:00:00.000Z', { kind: 'run-skipped', day: '2026-03-04' })
    expect(now(ada, '2026-03-05')).toMatchObject({
      unlogged: undefined,
      lastRunDay: '2026-03-02',
      runsIn7Days: 1,
    })
  })
  test('of the first day of a plan too', () => {
    const ada = athlete(phases)
    ada.morning('2026-03-02')
    expect(now(ada, '2026-03-03')).toMatchObject({ unlogged: '2026-03-02', runsIn7Days: 1, last: undefined })
    expect(now(ada, '2026-03-08')?.runsIn7Days).toBe(1)
    expect(now(ada, '2026-03-09')).toMatchObject({ runsIn7Days: 0, unlogged: '2026-03-02' })
  })
  test('is over once a later run is logged, and still counts in its week', () => {
    const ada = athlete(phases)
    ada.morning('2026-03-02')
    ada.morning('2026-03-04')
    ada.run('2026-03-04')
    expect(now(ada, '2026-03-05')).toMatchObject({
      unlogged: undefined,
      lastRunDay: '2026-03-04',
      runsIn7Days: 2,
    })
  })
  test('a run logged late takes its place by its day', () => {
    const ada = athlete(phases)
    ada.morning('2026-03-02')
    ada.morning('2026-03-04')
    ada.run('2026-03-04')
    ada.run('2026-03-02')
    ada.morning('2026-03-05')
    expect(now(ada, '2026-03-05')).toMatchObject({ lastRunDay: '2026-03-04', timesDone: 1, runsIn7Days: 2 })
    expect(now(ada, '2026-03-05')?.last?.session.day).toBe('2026-03-04')
  })
})
