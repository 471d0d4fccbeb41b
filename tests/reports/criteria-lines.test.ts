import { beforeAll, describe, expect, test } from 'vitest'
import type { CriteriaSet } from '../../src/chart/criteria-set.ts'
import { criteriaFound } from '../../src/reports/criteria-lines.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
beforeAll(async () => {
  record = await twoWeeks()
})

describe('the criteria in a report', () => {
  const lineOf = (over: object) => {
    const kind = record.desk.library.measure('single-hop')
    const set = {
      ...record.desk.library.criteriaSets.find((one) => one.id === 'lbpp-to-ground'),
      lines: [
        {
          line: 'hop',
          words: 'Hop',
          source: 's',
          label: 'read',
          gates: true,
          measure: 'single-hop',
          ...over,
        },
      ],
    } as CriteriaSet
    const shelf = { criteriaSets: [set], measure: () => kind }
    const at = { state: 'unloaded running', today: '2026-03-29' } as const
    return criteriaFound(record.chart, shelf, at)[0]?.lines[0]
  }

  test('are met at the limit and not met just above it', () => {
    expect(lineOf({ as: 'symmetry', atLeast: 90 })).toMatchObject({
      status: 'met',
      value: '90 %',
      day: '2026-03-27',
    })
    expect(lineOf({ as: 'symmetry', above: 90 })).toMatchObject({ status: 'not met' })
  })

  test('expire the day after the last day on which the measurement counts', () => {
    expect(lineOf({ as: 'value', atLeast: 1, expiresAfterDays: 2 })).toMatchObject({
      status: 'met',
      expires: '2026-03-29',
    })
    expect(lineOf({ as: 'value', atLeast: 1, expiresAfterDays: 1 })).toMatchObject({ status: 'expired' })
  })

  test('of steps that are already behind are not asked for again', () =>
    expect(
      criteriaFound(record.chart, record.desk.library, {
        state: 'return to performance',
        today: '2026-03-29',
      }),
    ).toEqual([]))
})
