import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { plusDays } from '../../src/chart/day.ts'
import { review, reviewDue } from '../../src/rules/review.ts'
import { athlete, type Case, library, team } from './life.ts'

const tibia: Case = {
  tissue: 'bone',
  ladder: 'tibial-stress-reaction-lbpp',
  diagnosis: 'tibial stress reaction',
  state: 'unloaded running',
}
const on = (ada: ReturnType<typeof athlete>, day: string) =>
  review(ada.chart(), team, library, `${day}T18:00:00.000Z`)

describe('what will lapse in the next two weeks, and nothing else', () => {
  const tender = (value: number) => {
    const ada = athlete({ ...tibia, episode: { surgeonLimits: { bodyWeightPct: 90, until: '2026-03-30' } } })
    ada.byTherapist('2026-03-10', {
      kind: 'measure',
      measure: 'contributing-factors',
      day: '2026-03-10',
      value,
    })
    ada.byTherapist('2026-03-10', {
      kind: 'measure',
      measure: 'bony-tenderness',
      day: '2026-03-10',
      value: 0,
    })
    return ada
  }
  const lapses = (day: string, value = 1) =>
    on(tender(value), day).lapses.map(({ what, on }) => `${what} ${on}`)
  test("the surgeon's limits from the fourteenth day before to their last day", () => {
    const limits = "the surgeon's limits 2026-03-30"
    expect(lapses('2026-03-15')).not.toContain(limits)
    expect(lapses('2026-03-16')).toContain(limits)
    expect(lapses('2026-03-30')).toContain(limits)
    expect(lapses('2026-03-31')).not.toContain(limits)
  })
  test('a met criterion from the fourteenth day before; one that is not met, or has lapsed, is no news', () => {
    const factors = 'Contributing factors dealt with 2026-06-08'
    expect(lapses('2026-05-24')).not.toContain(factors)
    expect(lapses('2026-05-25')).toContain(factors)
    expect(lapses('2026-05-25', 0)).not.toContain(factors)
    expect(lapses('2026-06-09')).not.toContain(factors)
    expect(lapses('2026-03-17')).toContain('Bony tenderness gone 2026-03-17')
    expect(lapses('2026-03-18')).toEqual(["the surgeon's limits 2026-03-30"])
  })
})

describe('the rung, the curve and the week of a chart', () => {
  test('the rung is named as the ladder names it', () => {
    const ada = athlete({ ...tibia, startRung: 3 })
    expect(on(ada, '2026-03-02').rung).toEqual({ rung: 3, of: 6, name: 'week 3' })
    expect(review(readChart('ada', []), team, library, '2026-03-02T18:00:00.000Z')).toMatchObject({
      day: '2026-03-02',
      rung: undefined,
      criteria: [],
      lapses: [],
      next: { move: 'hold' },
    })
    expect(reviewDue(readChart('ada', []))).toBeUndefined()
  })
  test('the curve counts body-weight minutes of runs whose next morning was answered', () => {
    const run = (bodyWeightPct: number, minutes: number, measuredBodyWeightPct?: number) => ({
      bouts: [
        { gait: 'walk', bodyWeightPct: 40, speedMps: 1.5, inclinePct: 0, minutes: 9, repeats: 1 },
        {
          gait: 'run',
          bodyWeightPct,
          speedMps: 2.5,
          inclinePct: 0,
          minutes,
          repeats: 2,
          ...(measuredBodyWeightPct ? { measuredBodyWeightPct } : {}),
        },
      ],
    })
    const curveAfter = (
      painDuring: number,
      painAfter: number,
      next: object | null = {},
      weighed?: number,
    ) => {
      const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
      for (let n = 0; n < 9; n += 1) {
        const day = plusDays('2026-03-02', 2 * n)
        const last = n === 8
        ada.morning(day)
        ada.run(day, {
          ...run(80, 5 + n, last ? weighed : undefined),
          ...(last ? { painDuring, painAfter } : {}),
        })
        if (!last || next) ada.morning(plusDays(day, 1), last ? (next ?? {}) : {})
      }
      return on(ada, '2026-03-25').curve
    }
    const described = (curve: ReturnType<typeof curveAfter>) =>
      curve?.verdict === 'described' ? curve : expect.fail(`no curve: ${curve?.verdict}`)
    expect(described(curveAfter(0, 0))).toMatchObject({ sessions: 9, openAbove: true })
    expect(described(curveAfter(1, 0)).openAbove).toBe(false)
    expect(described(curveAfter(0, 1)).openAbove).toBe(false)
    expect(described(curveAfter(0, 0, { worstPain: 1 })).openAbove).toBe(false)
    expect(described(curveAfter(0, 0, null))).toMatchObject({ sessions: 8, openAbove: true })
    // The heaviest run was 2 x 13 minutes at 80 %: 20.8 body-weight minutes; weighed at 100 % it was 26.
    const best = (weighed?: number) => described(curveAfter(1, 0, {}, weighed)).highestTolerated.best
    expect(best()).toBeGreaterThan(15)
    expect(best()).toBeLessThan(22)
    expect(best(100)).toBeGreaterThan(best())
  })
  test('exercises in the log of a run count as an exercise day, inside the week alone', () => {
    const exercises = [
      { exercise: 'squat-supported', where: 'in-treadmill', sets: 3, repeats: 12, bodyWeightPct: 60 },
    ]
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    ada.run('2026-03-02', { exercises })
    ada.morning('2026-03-04')
    ada.run('2026-03-04', { exercises: [] })
    const days = (day: string) => on(ada, day).week.exerciseDays
    expect([days('2026-03-01'), days('2026-03-02'), days('2026-03-08'), days('2026-03-09')]).toEqual([
      0, 1, 1, 0,
    ])
  })
  test('mornings that were missed are counted on their days', () => {
    const ada = athlete(tibia)
    const missed = new Map([['2026-03-02', { asked: true }]]) as never
    const week = (day: string) =>
      review({ ...ada.chart(), missed }, team, library, `${day}T18:00:00.000Z`).week.checkIns.missed
    expect([week('2026-03-02'), week('2026-03-09')]).toEqual([1, 0])
  })
})
