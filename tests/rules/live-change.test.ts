import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { withChange } from '../../src/rules/live-change.ts'

const bout = { gait: 'run', bodyWeightPct: 60, speedMps: 3, inclinePct: 0, minutes: 5, repeats: 3 } as const

describe('what was changed on the way counts as the dose done', () => {
  test('less weight from the seventh minute on parts the second run', () => {
    expect(withChange([bout], { atMinute: 7, why: 'pain', bodyWeightPct: 50 })).toEqual([
      { ...bout, minutes: 5, repeats: 1 },
      { ...bout, minutes: 2, repeats: 1 },
      { ...bout, bodyWeightPct: 50, minutes: 3, repeats: 1 },
      { ...bout, bodyWeightPct: 50, minutes: 5, repeats: 1 },
    ])
  })

  test('between two runs nothing is parted', () => {
    expect(withChange([bout], { atMinute: 5, why: 'gait', speedMps: 2.5 })).toEqual([
      { ...bout, repeats: 1 },
      { ...bout, speedMps: 2.5, repeats: 2 },
    ])
  })

  test('stopped: what follows was not done', () => {
    const second = { ...bout, minutes: 10, repeats: 1 }
    expect(withChange([bout, second], { atMinute: 16, why: 'pain', stopped: true })).toEqual([
      bout,
      { ...second, minutes: 1 },
    ])
    expect(withChange([bout], { atMinute: 0, why: 'breath', stopped: true })).toEqual([])
  })

  test('after the end of the run nothing is changed', () => {
    expect(withChange([bout], { atMinute: 15, why: 'other', stopped: true })).toEqual([bout])
  })

  test('what was weighed stays with the setting at which it was weighed', () => {
    const weighed = { ...bout, repeats: 1, measuredBodyWeightPct: 63 }
    expect(withChange([weighed], { atMinute: 2, why: 'pain', bodyWeightPct: 50 })[1]).not.toHaveProperty(
      'measuredBodyWeightPct',
    )
  })

  test('whatever is changed and when, no minute of running is lost or won, unless it was stopped', () => {
    const minutes = (done: readonly { minutes: number; repeats: number }[]) =>
      done.reduce((sum, one) => sum + one.minutes * one.repeats, 0)
    const any = fc.record({
      minutes: fc.integer({ min: 1, max: 40 }).map((half) => half / 2),
      repeats: fc.integer({ min: 1, max: 10 }),
    })
    fc.assert(
      fc.property(
        fc.array(any, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 480 }),
        (some, half) => {
          const bouts = some.map((one) => ({ ...bout, ...one }))
          const all = minutes(bouts)
          const lighter = withChange(bouts, { atMinute: half / 2, why: 'pain', bodyWeightPct: 40 })
          expect(minutes(lighter)).toBeCloseTo(all, 6)
          expect(minutes(lighter.filter((one) => one.bodyWeightPct === 60))).toBeCloseTo(
            Math.min(all, half / 2),
            6,
          )
          const stopped = withChange(bouts, { atMinute: half / 2, why: 'pain', stopped: true })
          expect(minutes(stopped)).toBeCloseTo(Math.min(all, half / 2), 6)
        },
      ),
    )
  })
})
