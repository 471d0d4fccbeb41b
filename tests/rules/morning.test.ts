import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { caseOf, groupsFor, morningOf, onlyHeard } from '../../src/rules/morning.ts'
import { adasChart, clinic } from './clinic-of-tests.ts'
import { athlete, type Case } from './life.ts'

const of = (episode: Parameters<typeof adasChart>[0], day = '2026-05-12') =>
  caseOf(adasChart(episode), day, clinic)

describe('what the case is', () => {
  test('a bone of the shin; a knee by its tissue or by its name; a hip by its site', () => {
    expect(of({})).toEqual({ tissue: 'bone', knee: false, hip: false, afterSurgery: false })
    expect(of({ tissue: 'joint' })).toMatchObject({ knee: true, hip: false })
    expect(of({ site: 'Patella' })).toMatchObject({ tissue: 'bone', knee: true })
    expect(of({ site: 'femoral neck' })).toMatchObject({ hip: true, knee: false })
  })
  test('after surgery from its day to eight weeks later, and not the day after', () => {
    const surgeryDay = '2026-03-17'
    expect(of({ surgeryDay }, '2026-03-16').afterSurgery).toBe(false)
    expect(of({ surgeryDay }, '2026-03-17').afterSurgery).toBe(true)
    expect(of({ surgeryDay }, '2026-05-12').afterSurgery).toBe(true)
    expect(of({ surgeryDay }, '2026-05-13').afterSurgery).toBe(false)
  })
  test('of somebody without an episode the strictest: a bone', () => {
    expect(caseOf(readChart('ada', []), '2026-05-12', clinic)).toEqual({
      tissue: 'bone',
      knee: false,
      hip: false,
      afterSurgery: false,
    })
  })
  test('the groups that are asked follow it', () => {
    expect(groupsFor(of({}))).toEqual(['always', 'bone'])
    expect(groupsFor(of({ tissue: 'joint', surgeryDay: '2026-05-01' }))).toEqual([
      'always',
      'surgery',
      'knee',
    ])
  })
})

describe('the answers of a morning', () => {
  const tendon: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' }
  const usual = (pains: readonly number[]) => {
    const ada = athlete(tendon)
    for (const [n, worstPain] of pains.entries())
      ada.morning(`2026-03-${String(n + 2).padStart(2, '0')}`, { worstPain })
    const chart = ada.chart()
    const last = chart.checkIns.at(-1)
    if (!last) throw new Error('no check-in')
    return morningOf(chart, last, caseOf(chart, last.day, clinic))
  }
  test('the usual pain is the lowest of the seven mornings before, and unknown on the first', () => {
    expect(usual([3]).usualPain).toBeUndefined()
    expect(usual([3, 4, 5])).toMatchObject({ usualPain: 3, worstPain: 5 })
    expect(usual([1, 3, 3, 3, 3, 3, 3, 3, 4]).usualPain).toBe(3)
    expect(usual([2, 3, 3, 3, 3, 3, 3, 4]).usualPain).toBe(2)
  })
  test('a temperature that was not taken is no temperature', () => {
    const temperatureAfter = (temperature: unknown) => {
      const ada = athlete({
        tissue: 'joint',
        ladder: 'knee-eight-levels-treadmill',
        episode: { surgeryDay: '2026-02-20' },
      })
      ada.morning('2026-03-02', { temperature })
      const [checkIn] = ada.chart().checkIns
      if (!checkIn) throw new Error('no check-in')
      return morningOf(ada.chart(), checkIn, caseOf(ada.chart(), '2026-03-02', clinic)).temperatureC
    }
    expect(temperatureAfter(36.9)).toBe(36.9)
    expect(temperatureAfter('not taken')).toBeUndefined()
  })
  test('a note alone says nothing of pain, swelling or temperature', () => {
    expect(onlyHeard([], of({}))).toMatchObject({
      temperatureC: undefined,
      moreSwollen: 'no',
      worstPain: 0,
      usualPain: undefined,
    })
  })
})
