import { describe, expect, test } from 'vitest'
import { plusDays } from '../../src/chart/day.ts'
import { respond } from '../../src/rules/response.ts'
import { athlete, type Case } from './life.ts'

const tendon: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' }
const week = (pain: number, days = 7) => Array.from({ length: 7 }, (_, i) => (i < days ? pain : undefined))

/** Sixteen mornings from Sunday 1 March on, with a run on the fourteenth; a morning may be left out. */
function afterWeeks(
  mornings: readonly (number | undefined)[],
  settings: Case['settings'] = {},
  today?: string,
) {
  const ada = athlete({ ...tendon, settings })
  for (const [n, pain] of mornings.entries()) {
    const day = plusDays('2026-03-01', n)
    if (pain !== undefined) ada.morning(day, { morningPain: pain, worstPain: pain })
    if (day === '2026-03-14') ada.run(day)
  }
  const [session] = ada.chart().sessions
  if (!session) throw new Error('no run')
  return respond(ada.chart(), session, today ?? '2026-03-16')
}

describe('pain that climbs from week to week, though each morning is as the one before', () => {
  const last = [2, 2]
  test('no climb has settled, and so has a fall', () => {
    expect(afterWeeks([...week(2), ...week(2), ...last]).response).toBe('settled')
    expect(afterWeeks([...week(4), ...week(2), ...last]).response).toBe('settled')
  })
  test('a climb of one holds the rung and says so', () => {
    expect(afterWeeks([...week(1), 1, 1, ...week(2).slice(2), ...last])).toMatchObject({
      response: 'provoked',
      because: { words: 'The worst morning climbed by 1 from last week.', source: 'silbernagel-2007' },
    })
  })
  test('a therapist may accept a climb of one, and two are one rung back', () => {
    const climbs = (by: number, settings: Case['settings']) =>
      afterWeeks([...week(1), 1, 1, ...week(1 + by).slice(2), 1 + by, 1 + by], settings).response
    expect(climbs(1, { weeklyClimbMost: 1 })).toBe('settled')
    expect(climbs(2, { weeklyClimbMost: 1 })).toBe('flared')
    expect(climbs(2, {})).toBe('flared')
    expect(climbs(1, { weeklyClimbBack: 1 })).toBe('flared')
  })
  test('too few mornings to compare: not known, and never read as fine', () => {
    expect(afterWeeks([...week(2, 3), ...week(2), ...last])).toMatchObject({
      response: 'unknown',
      because: { words: 'Too few mornings were answered to compare the weeks.', source: 'common-practice' },
    })
  })
  test('what comes later than the second morning says nothing of this run', () => {
    const quiet = [...week(1), ...week(1), 1, 1]
    expect(afterWeeks([...quiet, 3, 3, 3], {}, '2026-03-19').response).toBe('settled')
  })
  test('on the next morning the weeks are those that end on it', () => {
    const worseAtFirst = [undefined, 2, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2]
    expect(afterWeeks(worseAtFirst, { hoursWatched: 24 }, '2026-03-15').response).toBe('settled')
  })
})

describe('at the edges of the rule', () => {
  const run = (log: object, mornings: readonly object[] = [{}, {}, {}], settings: Case['settings'] = {}) => {
    const ada = athlete({ ...tendon, settings })
    for (const [n, answers] of mornings.entries()) {
      ada.morning(plusDays('2026-03-02', n), answers)
      if (n === 0) ada.run('2026-03-02', log)
    }
    const [session] = ada.chart().sessions
    return session && respond(ada.chart(), session, '2026-03-04').response
  }
  test('5 at any time of the watch is within it', () => {
    const five = { worstPain: 5, morningPain: 5 }
    expect(run({ painBefore: 5, painDuring: 5, painAfter: 5 }, [five, five, five])).toBe('settled')
  })
  test('where more is accepted in the run than after it, the rest of the day may be as the run', () => {
    const settings = { painDuringMost: 4, painAfterMost: 2 }
    expect(run({ painDuring: 4 }, [{}, { worstPain: 4 }, {}], settings)).toBe('settled')
    expect(run({ painDuring: 4 }, [{}, { worstPain: 5 }, {}], settings)).toBe('flared')
  })
  test('a run without a check-in that morning is measured against the pain before it', () => {
    const ada = athlete(tendon)
    ada.run('2026-03-02', { painBefore: 2 })
    ada.morning('2026-03-03', { morningPain: 2, worstPain: 2 })
    ada.morning('2026-03-04', { morningPain: 2, worstPain: 2 })
    const [session] = ada.chart().sessions
    expect(session && respond(ada.chart(), session, '2026-03-04').response).toBe('settled')
    expect(session && respond(ada.chart(), session, '2026-03-02').response).toBe('unknown')
    expect(session && respond(ada.chart(), session, '2026-03-03').response).toBe('unknown')
  })
})
