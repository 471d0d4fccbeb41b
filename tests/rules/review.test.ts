import { describe, expect, test } from 'vitest'
import { type Review, review, reviewDue } from '../../src/rules/review.ts'
import { reviewInWords } from '../../src/rules/review-words.ts'
import { athlete, library, team } from './life.ts'

const tibia = {
  tissue: 'bone',
  ladder: 'tibial-stress-reaction-lbpp',
  diagnosis: 'tibial stress reaction',
  state: 'unloaded running',
} as const

/** Two weeks: the first quiet, in the second a skipped run, one not logged, an ache and a silent morning. */
function twoWeeks() {
  const ada = athlete({
    ...tibia,
    clearedUntil: '2026-03-20',
    episode: { healingRisk: 'low', surgeonLimits: { bodyWeightPct: 90, until: '2026-03-22' } },
  })
  ada.live('2026-03-02', 7)
  ada.morning('2026-03-09')
  ada.handIn('ada', 'athlete', '2026-03-09T20:00:00.000Z', { kind: 'run-skipped', day: '2026-03-09' })
  ada.live('2026-03-10', 1)
  ada.morning('2026-03-11', { worstPain: 2, morningPain: 1, swelling: 'not sure' })
  ada.live('2026-03-12', 1)
  ada.handIn('tove', 'strength-coach', '2026-03-12T17:00:00.000Z', {
    kind: 'exercise-done',
    day: '2026-03-12',
    exercises: [{ exercise: 'dead-bug', where: 'off-treadmill', sets: 3, repeats: 8 }],
  })
  ada.morning('2026-03-14')
  ada.morning('2026-03-15')
  ada.byTherapist('2026-03-15', { kind: 'measure', measure: 'bony-tenderness', day: '2026-03-15', value: 0 })
  return ada
}
const at = '2026-03-15T18:00:00.000Z'
const reviewed = (): Review => review(twoWeeks().chart(), team, library, at)

describe('the weekly review', () => {
  test('adherence: what was answered, prescribed, done, skipped and not logged', () => {
    const { week, before } = reviewed()
    expect([week.from, week.to, before.from, before.to]).toEqual([
      '2026-03-09',
      '2026-03-15',
      '2026-03-02',
      '2026-03-08',
    ])
    expect(before).toMatchObject({
      checkIns: { answered: 7, missed: 0 },
      runs: { prescribed: 2, done: 2, skipped: 0, unlogged: 0, unprescribed: 0 },
    })
    expect(week.checkIns.answered).toBe(6)
    expect(week.runs).toMatchObject({ skipped: 1, done: 2 })
    expect(week.exerciseDays).toBe(1)
  })
  test('load: minutes of running, and effort times minutes [foster-2001]', () => {
    const { before } = reviewed()
    expect(before.runMinutes).toBe(8)
    expect(before.loadAu).toBe(24)
  })
  test('symptoms: the worst of the week, mornings with swelling, and how the runs were answered', () => {
    const { week, before } = reviewed()
    expect(week).toMatchObject({ worstPain: 2, worstMorning: 1, swollenMornings: 1 })
    expect(before).toMatchObject({
      worstPain: 0,
      responses: { settled: 2, provoked: 0, flared: 0, unknown: 0 },
    })
    expect(week.responses.flared).toBe(1)
    const nobody = review(athlete(tibia).chart(), team, library, at)
    expect(nobody.week).toMatchObject({ worstPain: undefined, worstMorning: undefined })
  })
  test('criteria that are open, what is proposed and why, and what will lapse', () => {
    const { criteria, next, lapses, rung, curve } = reviewed()
    expect(criteria.map(({ set }) => set)).toEqual([
      'lbpp-to-ground@1',
      'start-running-after-bone-stress-injury@1',
    ])
    expect(criteria[1]?.lines.find(({ line }) => line.line === 'tenderness')).toMatchObject({
      status: 'met',
      value: 0,
    })
    expect(next.because.length).toBeGreaterThan(0)
    expect(lapses).toEqual([
      { what: 'clearance for unloaded running', on: '2026-03-20' },
      { what: "the surgeon's limits", on: '2026-03-22' },
      { what: 'Bony tenderness gone', on: '2026-03-22' },
    ])
    expect(rung).toMatchObject({ of: 6 })
    expect(curve).toMatchObject({ verdict: 'too-little' })
  })
  test('a run above the ceiling, and one that was not prescribed, are counted', () => {
    const ada = athlete({ ...tibia, ceiling: { bodyWeightPct: 50, speedMps: 3.6, runMinutes: 60 } })
    ada.morning('2026-03-09')
    ada.run('2026-03-09', {
      bouts: [{ gait: 'run', bodyWeightPct: 55, speedMps: 2.5, inclinePct: 0, minutes: 5, repeats: 1 }],
    })
    ada.morning('2026-03-10')
    ada.run('2026-03-10', {
      bouts: [
        { gait: 'run', bodyWeightPct: 50, speedMps: 2.5, inclinePct: 0, minutes: 5, repeats: 1 },
        { gait: 'walk', bodyWeightPct: 50, speedMps: 1.5, inclinePct: 0, minutes: 9, repeats: 1 },
      ],
    })
    const { runs, runMinutes } = review(ada.chart(), team, library, at).week
    expect([runs.aboveCeiling, runs.unprescribed, runs.prescribed, runMinutes]).toEqual([1, 1, 1, 10])
  })
  test('a run that nobody logged is counted from the next day on', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-15')
    expect(review(ada.chart(), team, library, at).week.runs.unlogged).toBe(0)
    expect(review(ada.chart(), team, library, '2026-03-16T18:00:00.000Z').week.runs.unlogged).toBe(1)
  })
})

describe('in words', () => {
  test('every part is said, what is missing as missing', () => {
    const parts = reviewInWords(reviewed())
    expect(parts.map(({ title }) => title)).toEqual([
      'Adherence',
      'Load',
      'Symptoms',
      'Criteria still open',
      'Next',
      'Will lapse',
    ])
    const all = parts.flatMap(({ lines }) => lines).join('\n')
    expect(all).toContain('Check-ins: 6 answered of 7, 0 missed.')
    expect(all).toMatch(/Runs: 2 done of \d prescribed; 1 said not to be run/)
    expect(all).toContain('missing: Walking free of pain [george-2024, read]')
    expect(all).toContain(
      'missing: At least 45 minutes of walking without pain (30 to 45 on the page) [walk-first-page, read-2nd, shown only]',
    )
    expect(all).not.toContain('Bony tenderness gone [')
    expect(all).toContain('clearance for unloaded running: after 2026-03-20')
    expect(all).toContain('Worst pain 2 (0), worst morning 1 (0), 1 mornings with swelling or not sure.')
  })
  test('the response curve is said with its band once there is enough to go on, and opens nothing', () => {
    const curve = {
      verdict: 'described',
      sessions: 9,
      highestTolerated: { best: 12.34, low: 8, high: 20.06 },
      openAbove: false,
      words: 'The load at which a provoked answer becomes as likely as a settled one.',
    } as const
    const all = reviewInWords({ ...reviewed(), curve }).flatMap(({ lines }) => lines)
    expect(all).toContain(
      'Response curve over 9 sessions: tolerated up to 12.3 body-weight minutes (8 to 20.1). The load at which a provoked answer becomes as likely as a settled one. It opens nothing.',
    )
  })
  test('of an athlete without answers, plan or anything to lapse', () => {
    const empty = review(athlete({ ...tibia, diagnosis: 'other' }).chart(), team, library, at)
    const all = reviewInWords({
      ...empty,
      rung: undefined,
      criteria: [{ set: 'x@1', title: 'X', lines: [] }],
    }).flatMap(({ lines }) => lines)
    expect(all).toContain('No plan is signed.')
    expect(all).toContain('X: all met; a therapist signs.')
    expect(all).toContain('Nothing in the next two weeks.')
    expect(all.join()).toContain('Worst pain not answered (not answered)')
  })
})

test('a week is signed from the enrolment on up to today, not before and not ahead', () => {
  const signs = (day: string) =>
    athlete(tibia).byTherapist('2026-03-09', { kind: 'review', day, next: 'go on' }, '12:00')
  expect(() => signs('2026-03-10')).toThrow('not come yet')
  expect(signs('2026-03-09')).toMatchObject([{ kind: 'review', day: '2026-03-09' }])
  expect(signs('2026-03-01')).toMatchObject([{ kind: 'review', day: '2026-03-01' }])
  expect(() => signs('2026-02-28')).toThrow('before the enrolment')
})

test('a review is due a week after the plan was signed, and a week after the last one', () => {
  const ada = athlete(tibia)
  expect(reviewDue(ada.chart())).toBe('2026-03-08')
  ada.byTherapist('2026-03-09', { kind: 'review', day: '2026-03-09', next: 'go on' })
  expect(reviewDue(ada.chart())).toBe('2026-03-16')
  expect(ada.notices()).toEqual([])
})
