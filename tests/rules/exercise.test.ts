import { describe, expect, test } from 'vitest'
import { grants, may } from '../../src/rules/permissions.ts'
import { athlete } from './life.ts'

const ada = () =>
  athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' })
const line = { exercise: 'dead-bug', where: 'off-treadmill', sets: 3, repeats: 8 }
const log = (day: string, change: object = {}) => ({
  kind: 'exercise-done',
  day,
  exercises: [{ ...line, ...change }],
})

describe('the strength coach logs exercises, and nothing else', () => {
  test('of an athlete in the squad', () => {
    const chart = ada()
    chart.handIn('tove', 'strength-coach', '2026-03-02T17:00:00.000Z', log('2026-03-02'))
    expect(chart.chart().exercises.map(({ author, id }) => `${author} ${id}`)).toEqual([
      'tove exercise/ada/2026-03-02',
    ])
  })
  test('no other door lets a strength coach write', () => {
    const tove = { id: 'tove', roles: ['strength-coach' as const] }
    const chart = ada().chart()
    const open = (Object.keys(grants) as (keyof typeof grants)[]).filter((door) => may(tove, door, chart))
    expect(open.filter((door) => !door.startsWith('see-'))).toEqual(['exercise-done'])
    expect(may({ id: 'elsewhere', roles: ['strength-coach'] }, 'exercise-done', chart)).toBe(false)
    expect(may({ id: 'noor', roles: ['coach'] }, 'exercise-done', chart)).toBe(false)
  })
})

describe('exercises as they were done', () => {
  test('twice on a day are two entries', () => {
    const chart = ada()
    for (const time of ['08', '18'])
      chart.handIn('ada', 'athlete', `2026-03-02T${time}:00:00.000Z`, log('2026-03-02'))
    expect(chart.chart().exercises.map(({ id }) => id)).toEqual([
      'exercise/ada/2026-03-02',
      'exercise/ada/2026-03-02/2',
    ])
  })
  test('pain that breaks the rule of the tissue is shown to the therapist (T8)', () => {
    const chart = ada()
    chart.handIn('ada', 'athlete', '2026-03-02T08:00:00.000Z', log('2026-03-02', { pain: 1 }))
    expect(chart.notices()).toEqual(['note to iben'])
    chart.handIn('ada', 'athlete', '2026-03-02T09:00:00.000Z', log('2026-03-02', { pain: 0 }))
    expect(chart.notices()).toEqual([])
    const two = log('2026-03-02')
    chart.handIn('ada', 'athlete', '2026-03-02T10:00:00.000Z', {
      ...two,
      exercises: [line, { ...line, pain: 1 }],
    })
    expect(chart.notices()).toEqual(['note to iben'])
    expect(chart.chart().exercises.at(-1)?.id).toBe('exercise/ada/2026-03-02/3')
    const tendon = athlete({ tissue: 'tendon', ladder: 'tendon-pain-monitored' })
    tendon.handIn('ada', 'athlete', '2026-03-02T08:00:00.000Z', log('2026-03-02', { pain: 5 }))
    expect(tendon.notices()).toEqual([])
  })
  test('not of a day to come', () => {
    expect(() => ada().handIn('ada', 'athlete', '2026-03-02T08:00:00.000Z', log('2026-03-03'))).toThrow(
      'not come yet',
    )
  })
})

describe('a run that was not run', () => {
  const skip = (chart: ReturnType<typeof ada>, day: string) =>
    chart.handIn('ada', 'athlete', '2026-03-02T20:00:00.000Z', { kind: 'run-skipped', day })
  test('is said once, and not of a day that was run or has not come', () => {
    const chart = ada()
    chart.morning('2026-03-02')
    skip(chart, '2026-03-02')
    expect(() => skip(chart, '2026-03-02')).toThrow('marked as not run already')
    expect(() => skip(chart, '2026-03-03')).toThrow('not come yet')
    const other = ada()
    other.live('2026-03-02', 1)
    expect(() => skip(other, '2026-03-02')).toThrow('logged already')
  })
})
