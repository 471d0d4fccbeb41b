import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { lapseDue, lapsesWithin, nextLapse } from '../../src/rules/clearance.ts'
import { athlete, type Case, team } from './life.ts'

const until = (clearedUntil: string): Case => ({
  tissue: 'bone',
  ladder: 'tibial-stress-reaction-lbpp',
  state: 'unloaded running',
  clearedUntil,
})
const clearance = { kind: 'clearance', state: 'ground running', until: '2026-04-30' }

describe('a clearance lapses by itself and never rises by itself', () => {
  test('after its last day: one minute before midnight nothing, at midnight athlete and coaches are told', () => {
    const chart = athlete(until('2026-03-05')).chart()
    expect(nextLapse(chart)).toBe('2026-03-06T00:00:00.000Z')
    expect(lapseDue(chart, team, '2026-03-05T23:59:00.000Z')).toEqual({ entries: [], notices: [] })
    const { entries, notices } = lapseDue(chart, team, '2026-03-06T00:00:00.000Z')
    expect(entries).toMatchObject([
      {
        kind: 'clearance-lapsed',
        id: 'clearance/ada/1/lapsed',
        clearance: 'clearance/ada/1',
        state: 'unloaded running',
      },
    ])
    expect(notices.map(({ kind, to }) => [kind, to])).toEqual([
      ['told', { person: 'ada' }],
      ['cleared', { person: 'noor' }],
      ['cleared', { person: 'tove' }],
    ])
    const after = readChart('ada', [...chart.entries, ...entries])
    expect(nextLapse(after)).toBeUndefined()
    expect(lapseDue(after, team, '2026-03-06T00:01:00.000Z').entries).toEqual([])
  })
  test('nothing lapses where nothing is cleared', () => {
    expect(nextLapse(athlete({ ...until('2026-03-05'), state: 'no running' }).chart())).toBeUndefined()
    expect(nextLapse(readChart('ada', []))).toBeUndefined()
  })
  test('weeks of settled runs raise nothing', () => {
    const ada = athlete(until('2026-12-31'))
    ada.live('2026-03-02', 30)
    expect(ada.chart().clearance?.id).toBe('clearance/ada/1')
  })
  test('what lapses within two weeks is seen beforehand, from the fourteenth day on', () => {
    const chart = athlete(until('2026-03-20')).chart()
    expect(lapsesWithin(chart, 14, '2026-03-05T08:00:00.000Z')).toBeUndefined()
    expect(lapsesWithin(chart, 14, '2026-03-06T08:00:00.000Z')).toBe('2026-03-20')
    expect(lapsesWithin(chart, 14, '2026-03-20T08:00:00.000Z')).toBe('2026-03-20')
    expect(lapsesWithin(chart, 14, '2026-03-21T08:00:00.000Z')).toBeUndefined()
    expect(
      lapsesWithin(
        athlete({ ...until('2026-03-20'), state: 'no running' }).chart(),
        14,
        '2026-03-20T08:00:00.000Z',
      ),
    ).toBeUndefined()
  })
})

describe('a therapist signs a clearance', () => {
  test('athlete and coaches hear of it in the same minute', () => {
    const ada = athlete(until('2026-03-05'))
    ada.byTherapist('2026-03-02', { ...clearance, activities: ['cycling'], restrictions: ['no hills'] })
    expect(ada.notices()).toEqual(['told to ada', 'cleared to noor', 'cleared to tove'])
    expect(ada.chart().clearance).toMatchObject({ state: 'ground running', restrictions: ['no hills'] })
  })
  test('not until a day that is over, and not on criteria that nobody signed', () => {
    const ada = athlete(until('2026-03-05'))
    expect(() => ada.byTherapist('2026-03-02', { ...clearance, until: '2026-03-01' })).toThrow(
      'That day is over',
    )
    ada.byTherapist('2026-03-02', { ...clearance, until: '2026-03-02' })
    expect(() => ada.byTherapist('2026-03-02', { ...clearance, about: 'criteria-signed/ada/1' })).toThrow(
      'not signed in this chart',
    )
    ada.byTherapist('2026-03-02', { kind: 'criteria-signed', set: 'lbpp-to-ground', words: 'Camp.' })
    ada.byTherapist('2026-03-02', { ...clearance, about: 'criteria-signed/ada/1' })
    expect(ada.chart().clearance?.about).toBe('criteria-signed/ada/1')
    expect(() => ada.byTherapist('2026-03-02', { ...clearance, about: 'criteria-signed/ada/9' })).toThrow(
      '[about]',
    )
  })
  test('lowered, it takes away a run that was prescribed for today', () => {
    const ada = athlete(until('2026-12-31'))
    expect(ada.morning('2026-03-02')?.what).toBe('run')
    ada.byTherapist('2026-03-02', { ...clearance, state: 'no running' })
    expect(ada.chart().prescriptions.at(-1)).toMatchObject({ move: 'hold', what: 'rest' })
    expect(ada.chart().prescriptions.map(({ id }) => id)).toEqual([
      'prescription/ada/2026-03-02',
      'prescription/ada/2026-03-02/2',
    ])
    ada.morning('2026-03-03')
    expect(ada.chart().prescriptions.at(-1)?.id).toBe('prescription/ada/2026-03-03')
  })
})
