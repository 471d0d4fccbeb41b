import { describe, expect, test } from 'vitest'
import type { LadderWish } from '../../src/chart/ladder-wish.ts'
import { ladderFor } from '../../src/rules/built-ladder.ts'
import { Submission } from '../../src/rules/submissions.ts'
import { athlete, library } from './life.ts'

const knee = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill' } as const
const ceiling = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 }
const wish: LadderWish = {
  start: { bodyWeightPct: 60, speedMps: 8 / 3.6, minutes: 8 },
  goal: { speedMps: 9 / 3.6, minutes: 20, on: 'lbpp-treadmill' },
  most: { forceRisePct: 10, loadRisePct: 20 },
}
const asked = { kind: 'plan-signed', athlete: 'ada', startRung: 1, days: ['mon'], ceiling }
const sign = (change: object) =>
  athlete(knee).byTherapist(
    '2026-03-01',
    {
      kind: 'plan-signed',
      ladder: 'knee-eight-levels-track',
      startRung: 1,
      days: ['mon'],
      ceiling,
      ...change,
    },
    '13:00',
  )[0]

describe('a plan copies in what it was signed from', () => {
  test('the ladder, the exercises and the rules of pain', () => {
    const plan = sign({ programme: 'trunk-and-balance', settings: { painDuringMost: 1 } })
    if (plan?.kind !== 'plan-signed') throw new Error('no plan')
    expect(plan.ladder).toEqual(library.ladder('knee-eight-levels-track'))
    expect(plan.programme).toEqual(library.programme('trunk-and-balance@1'))
    expect(plan.settings).toMatchObject({
      painDuringMost: 1,
      painAfterMost: 2,
      sorenessRows: true,
      rungsUpPer7Days: 1,
    })
  })
  test('a ladder that was built for this athlete, with what was wished: built again it is the same', () => {
    const is = athlete(knee)
    const plan = is.byTherapist(
      '2026-03-01',
      { kind: 'plan-signed', ladder: { built: wish }, startRung: 1, days: ['mon'], ceiling },
      '13:00',
    )[0]
    if (plan?.kind !== 'plan-signed') throw new Error('no plan')
    expect(plan).toMatchObject({ builtFrom: wish, ladder: { id: 'built-for-ada', tissues: ['joint'] } })
    const again = ladderFor(athlete(knee).chart(), wish, library.clinic, '2026-03-01')
    expect('refused' in again ? again : again.ladder).toEqual(plan.ladder)
    const next = ladderFor(is.chart(), wish, library.clinic, '2026-03-09')
    expect('refused' in next ? next : next.ladder.version).toBe(2)
  })
  test('a ladder that somebody hands in ready made is not taken', () => {
    const ladder = library.ladder('acl-nine-phases')
    expect(Submission.safeParse({ ...asked, ladder }).success).toBe(false)
    expect(Submission.safeParse({ ...asked, ladder: { built: wish } }).success).toBe(true)
    expect(Submission.safeParse({ ...asked, ladder: { built: { ...wish, rungs: [] } } }).success).toBe(false)
  })
})

describe('a plan that cannot be signed is refused in words', () => {
  const rows: [string, object, string][] = [
    ['a ladder that is not there', { ladder: 'no-such' }, 'There is no ladder no-such.'],
    [
      'a ladder for another tissue',
      { ladder: 'tendon-pain-monitored' },
      'is for tendon; the episode is about joint',
    ],
    [
      'a wish that the limits do not allow, with what to allow',
      { ladder: { built: { ...wish, most: { forceRisePct: 10, loadRisePct: 1 } } } },
      'allow more, or start elsewhere',
    ],
    ['a rung that is not there', { startRung: 9 }, 'The ladder has 8 rungs.'],
    ['exercises that are not there', { programme: 'no-such' }, 'There is no exercise programme no-such.'],
    [
      'a setting that the tissue does not allow',
      { settings: { painDuringMost: 4 } },
      'painDuringMost may be 0, 1, 2, 3',
    ],
    [
      'a setting that the tissue does not have',
      { settings: { weeklyClimbMost: 0 } },
      'weeklyClimbMost may be left out',
    ],
  ]
  for (const [title, change, words] of rows) test(title, () => expect(() => sign(change)).toThrow(words))

  test('the last rung may be the first', () => expect(sign({ startRung: 8 })).toMatchObject({ startRung: 8 }))
  test('bone accepts no pain in the run, whoever signs it [vincent-2022]', () => {
    expect(() =>
      athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', settings: { painDuringMost: 1 } }),
    ).toThrow('painDuringMost may be 0')
  })
})

describe('the strict defaults where sources disagree', () => {
  const rows: [string, 'bone' | 'joint' | 'tendon' | 'muscle', string, unknown][] = [
    ['bone: 0 in the run [vincent-2022]', 'bone', 'painDuringMost', 0],
    ['joint: the lower cut is 2, not 3 (T7)', 'joint', 'painDuringMost', 2],
    ['joint: one level a week, not every session', 'joint', 'rungsUpPer7Days', 1],
    [
      'joint: two days off when soreness stays [white-soreness-effusion]',
      'joint',
      'restDaysWhenSorenessStays',
      2,
    ],
    [
      'joint: one day off when sore the next day [white-soreness-effusion]',
      'joint',
      'restDaysWhenSoreAfter',
      1,
    ],
    ['tendon: 5 in the run [silbernagel-2007]', 'tendon', 'painDuringMost', 5],
    ['tendon: settled by the next morning [silbernagel-2007]', 'tendon', 'morningRiseMost', 0],
    ['tendon: watched for 48 hours', 'tendon', 'hoursWatched', 48],
    ['muscle: free of pain', 'muscle', 'painDuringMost', 0],
  ]
  for (const [title, tissue, setting, value] of rows)
    test(title, () => {
      const written = library.family(tissue).settings as Record<
        string,
        { value: unknown; label: string } | undefined
      >
      expect(written[setting]?.value).toBe(value)
      expect(written[setting]?.label).not.toBe('memory')
    })
})
