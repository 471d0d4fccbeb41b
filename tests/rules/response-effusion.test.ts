import { describe, expect, test } from 'vitest'
import { effusionRule, gradedOn } from '../../src/rules/response-effusion.ts'
import { athlete } from './life.ts'

function graded(...grades: readonly number[]) {
  const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
  for (const [n, value] of grades.entries())
    ada.byTherapist('2026-03-20', {
      kind: 'measure',
      measure: 'effusion-grade',
      day: `2026-03-${String(n + 2).padStart(2, '0')}`,
      value,
    })
  return ada.chart()
}
const after = (...grades: readonly number[]) => effusionRule(graded(...grades), '2026-03-20')

describe('the effusion rule, visit by visit [white-soreness-effusion]', () => {
  const rows: [string, number[], string | undefined][] = [
    ['nobody has graded it', [], undefined],
    ['none goes on as due', [0], 'as-due'],
    ['1+ goes on as due', [1], 'as-due'],
    ['2+ holds', [2], 'hold'],
    ['3+ holds', [3], 'hold'],
    ['2+, then none: on', [2, 0], 'as-due'],
    ['2+, then a trace: on', [2, 0.5], 'as-due'],
    ['2+, then 1+ at the next visit: the same level', [2, 1], 'same-level'],
    ['2+, then 2+: hold again', [2, 2], 'hold'],
    ['2+, 1+, and at the visit after 1+: on', [2, 1, 1], 'as-due'],
    ['2+, 2+, and at the visit after 1+: on', [2, 2, 1], 'as-due'],
    ['2+ for the third visit: hold and tell the team', [2, 2, 2], 'hold-and-tell'],
    ['2+, 1+, 2+: hold and tell the team', [2, 1, 2], 'hold-and-tell'],
    ['and for the fourth', [2, 2, 2, 2], 'hold-and-tell'],
    ['a new 2+ after it had settled holds, and is the first again', [2, 0, 2], 'hold'],
    ['1+ after it had settled goes on', [2, 0, 1], 'as-due'],
  ]
  for (const [title, grades, rule] of rows) test(title, () => expect(after(...grades)).toBe(rule))
})

test('grades are read in the order of their days, and not from days to come', () => {
  const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
  const grade = (day: string, value: number) =>
    ada.byTherapist('2026-03-20', { kind: 'measure', measure: 'effusion-grade', day, value })
  grade('2026-03-10', 0)
  grade('2026-03-05', 2)
  expect(effusionRule(ada.chart(), '2026-03-20')).toBe('as-due')
  expect(effusionRule(ada.chart(), '2026-03-09')).toBe('hold')
  expect(effusionRule(ada.chart(), '2026-03-04')).toBeUndefined()
  expect(gradedOn(ada.chart(), '2026-03-05')).toBe(true)
  expect(gradedOn(ada.chart(), '2026-03-06')).toBe(false)
  grade('2026-03-12', 2)
  grade('2026-03-11', 2)
  grade('2026-03-08', 3)
  expect(effusionRule(ada.chart(), '2026-03-12')).toBe('hold')
  expect(effusionRule(ada.chart(), '2026-03-08')).toBe('hold')
})

test('of two grades on one day the later written one is the later visit', () => {
  expect(after(2, 2)).toBe('hold')
  const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
  for (const value of [2, 1])
    ada.byTherapist('2026-03-20', { kind: 'measure', measure: 'effusion-grade', day: '2026-03-10', value })
  expect(effusionRule(ada.chart(), '2026-03-20')).toBe('same-level')
})

test('another measure of 2 or more is no effusion', () => {
  const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
  ada.byTherapist('2026-03-20', { kind: 'measure', measure: 'pain', day: '2026-03-10', value: 3 })
  expect(effusionRule(ada.chart(), '2026-03-20')).toBeUndefined()
  expect(gradedOn(ada.chart(), '2026-03-10')).toBe(false)
})
