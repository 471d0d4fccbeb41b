import { beforeEach, describe, expect, test } from 'vitest'
import { receive } from '../../src/desk/intake.ts'
import { type DeskAtWork, openDeskAtWork } from '../desk/desk.ts'

let work: DeskAtWork
beforeEach(async () => {
  work = await openDeskAtWork()
})

const takes = async (
  id: string,
  role: 'athlete' | 'coach' | 'therapist' | 'clinic-lead',
  athlete = 'mika',
) => {
  const asked = { kind: 'exported', athlete, what: 'fhir', for: 'the surgeon' }
  const outcome = await receive(work.desk, { id, roles: [role] }, asked)
  return 'refused' in outcome ? outcome.refused : outcome.written
}

describe('an export', () => {
  test('is a page of the chart: who, what, for whom, and how far the chart went', async () => {
    const before = (await work.desk.charts.read('mika')).entries.length
    expect(await takes('iben', 'therapist')).toMatchObject([
      { kind: 'exported', author: 'iben', what: 'fhir', for: 'the surgeon', chartLength: before + 1 },
    ])
  })

  test('may be taken by the athlete, the treating therapist and the clinic lead', async () => {
    for (const [id, role] of [
      ['mika', 'athlete'],
      ['iben', 'therapist'],
      ['ravi', 'therapist'],
      ['sunniva', 'clinic-lead'],
    ] as const)
      expect(Array.isArray(await takes(id, role)), id).toBe(true)
  })

  test('may never be taken by a coach, nor by another athlete or therapist', async () => {
    expect(await takes('noor', 'coach')).toBe('not-yours')
    expect(await takes('adaeze', 'athlete')).toBe('not-yours')
    expect(await takes('somebody', 'therapist')).toBe('not-yours')
  })

  test('of nobody is refused, and leaves nothing', async () => {
    expect(await takes('sunniva', 'clinic-lead', 'nobody')).toBe('no-chart')
    expect(await work.store.read('nobody')).toEqual([])
  })

  test('twice is two pages', async () => {
    await takes('iben', 'therapist')
    await takes('iben', 'therapist')
    const chart = await work.desk.charts.read('mika')
    expect(chart.entries.filter((entry) => entry.kind === 'exported').map((entry) => entry.id)).toEqual([
      'exported/mika/1',
      'exported/mika/2',
    ])
  })
})
