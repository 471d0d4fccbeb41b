import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { clearedLine, listChanged } from '../../src/rules/cleared.ts'
import { athlete, type Case, team } from './life.ts'

const tibia: Case = {
  tissue: 'bone',
  ladder: 'tibial-stress-reaction-lbpp',
  state: 'unloaded running',
  startRung: 2,
  clearedUntil: '2026-03-05',
}
const line = (ada: ReturnType<typeof athlete>, day = '2026-03-02', time = '09:00') =>
  clearedLine(ada.chart(), team, `${day}T${time}:00.000Z`)

describe('a coach sees who is cleared at what load, and nothing medical', () => {
  test('before the check-in, with a run, and after it', () => {
    const ada = athlete(tibia)
    expect(line(ada)).toEqual({
      athlete: 'ada',
      name: 'ada',
      today: 'waiting for the check-in',
      state: 'unloaded running',
      ceiling: undefined,
      until: '2026-03-05',
    })
    ada.morning('2026-03-02')
    expect(line(ada)).toMatchObject({ today: 'run', ceiling: { bodyWeightPct: 60, runMinutes: 10 } })
    expect(line(ada)?.ceiling?.speedMps).toBeCloseTo(7 * 0.44704, 5)
    ada.run('2026-03-02')
    expect(line(ada)?.today).toBe('run done')
  })
  test('a day of exercises is no run today; a day on which running is taken away is not cleared', () => {
    const ada = athlete(tibia)
    ada.live('2026-03-02', 1)
    ada.morning('2026-03-03')
    expect(line(ada, '2026-03-03')).toMatchObject({ today: 'no run today', ceiling: undefined })
    const swollen = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' })
    swollen.morning('2026-03-02', { swelling: 'not sure' })
    expect(line(swollen)).toMatchObject({
      today: 'not cleared today',
      state: 'ground running',
      ceiling: undefined,
    })
  })
  test('not cleared: on hold, under an open call, lapsed, withdrawn or never signed, all look the same', () => {
    const barred = { today: 'not cleared today', state: 'no running', ceiling: undefined, until: undefined }
    const held = athlete(tibia)
    held.byTherapist('2026-03-01', { kind: 'hold', words: 'Wait for the scan.' }, '13:00')
    expect(line(held)).toMatchObject(barred)
    const called = athlete(tibia)
    called.morning('2026-03-02', { signs: { always: ['chest-pain'], bone: [] } })
    expect(line(called)).toMatchObject(barred)
    expect(line(athlete(tibia), '2026-03-05')?.today).toBe('waiting for the check-in')
    expect(line(athlete(tibia), '2026-03-06')).toMatchObject(barred)
    expect(line(athlete({ ...tibia, state: 'no running' }))).toMatchObject(barred)
    const never = athlete(tibia)
    const strikes = 'clearance/ada/1'
    never.byTherapist('2026-03-01', { kind: 'amendment', strikes, words: 'Wrong athlete.' }, '14:00')
    expect(line(never)).toMatchObject(barred)
  })
  test('nothing at all without consent, or of somebody who is not enrolled', () => {
    const ada = athlete(tibia)
    const chart = ada.chart()
    const silent = { ...chart, enrolment: chart.enrolment && { ...chart.enrolment, consentToCoach: false } }
    expect(clearedLine(silent, team, '2026-03-02T09:00:00.000Z')).toBeUndefined()
    expect(clearedLine(readChart('ada', []), team, '2026-03-02T09:00:00.000Z')).toBeUndefined()
  })
  test('of several bouts the heaviest, the fastest and all of the running', () => {
    const ada = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-track', startRung: 2 })
    const prescription = ada.morning('2026-03-02')
    const bouts = prescription?.dose?.bouts.filter(({ gait }) => gait === 'run') ?? []
    const ceiling = line(ada)?.ceiling
    expect(bouts.length).toBeGreaterThan(1)
    expect(ceiling?.bodyWeightPct).toBe(100)
    expect(ceiling?.speedMps).toBe(Math.max(...bouts.map((bout) => bout.speedMps?.high ?? 0)))
    expect(ceiling?.runMinutes).toBeCloseTo((1.25 * 1609.344) / (8 / 3.6) / 60, 5)
  })
})

describe("the coaches' list of the day", () => {
  const out = {
    ...team,
    roster: { ...team.roster, listDay: '2026-03-02', coachesChannel: 'C-coaches' },
  }
  const at = (time: string) => `2026-03-02T${time}.000Z`
  const changed = (of: typeof team, time = '09:00:30') =>
    listChanged(athlete(tibia).chart(), of, at(time)).notices
  test('all changes of one minute are one update, sent as the next minute begins', () => {
    const [notice] = changed(out)
    expect(notice).toEqual({
      key: 'list/2026-03-02/2026-03-02T09:01:00.000Z',
      kind: 'list',
      to: { place: 'coaches' },
      about: '2026-03-02',
      surface: 'list/2026-03-02',
      queuedAt: at('09:00:30'),
      notBefore: at('09:01:00'),
    })
    expect(changed(out, '09:00:59')[0]?.key).toBe(notice?.key)
    expect(changed(out, '09:01:00')[0]?.key).not.toBe(notice?.key)
  })
  test('nothing before it is out, without a channel, or of somebody who shares nothing', () => {
    expect(changed({ ...out, roster: { ...out.roster, listDay: '2026-03-01' } })).toEqual([])
    expect(changed({ ...out, roster: { ...out.roster, coachesChannel: undefined } })).toEqual([])
    expect(listChanged(readChart('ada', []), out, at('09:00:00')).notices).toEqual([])
  })
})

test('who works with the athlete hears at once that the clearance changed; at night when the quiet hours end', () => {
  const ada = athlete(tibia)
  ada.byTherapist('2026-03-02', { kind: 'clearance', state: 'no running', until: '2026-03-05' })
  expect(ada.notices().slice(1)).toEqual(['cleared to noor', 'cleared to tove'])
})
