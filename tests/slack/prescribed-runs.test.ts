import { describe, expect, test } from 'vitest'
import { doseOf } from '../../src/chart/ladder.ts'
import { runsOf } from '../../src/slack/prescribed-runs.ts'
import { staffSessionModal } from '../../src/slack/staff-session.ts'
import { athlete, library } from '../rules/life.ts'

describe('the log of a run holds all the running that was prescribed', () => {
  for (const ladder of library.ladders)
    test(`${ladder.title}: every rung fits, with one more bout`, () => {
      for (const rung of ladder.rungs) expect(runsOf(doseOf(rung)).length).toBeLessThanOrEqual(9)
    })

  test('jogging between faster bouts is a bout of its own, once less than the bouts it stands between', () => {
    const bout = {
      gait: 'run' as const,
      bodyWeightPct: 80,
      inclinePct: 0,
      repeats: { low: 4, high: 4 },
      minutes: { low: 2, high: 2 },
      recovery: { gait: 'run' as const, minutes: 1 },
    }
    const dose = { on: 'treadmill' as const, warmUpMinutes: 0, bouts: [bout], coolDownMinutes: 0 }
    expect(runsOf(dose)).toMatchObject([
      { repeats: { low: 4 }, minutes: { low: 2 } },
      { gait: 'run', repeats: { low: 3 }, minutes: { low: 1 } },
    ])
    expect(runsOf({ ...dose, bouts: [{ ...bout, recovery: { gait: 'walk', minutes: 1 } }] }).length).toBe(1)
    expect(runsOf(undefined)).toEqual([])
  })

  test('the longest form stays under the hundred blocks that a form may have', () => {
    for (const startRung of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-track', startRung })
      ada.morning('2026-03-02')
      expect(staffSessionModal(ada.chart(), library, '2026-03-02').blocks.length).toBeLessThanOrEqual(100)
    }
  })
})
