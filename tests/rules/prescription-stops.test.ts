import { describe, expect, test } from 'vitest'
import { whatStops } from '../../src/rules/prescription-stops.ts'
import { respond } from '../../src/rules/response.ts'
import { settingsOf, sourceOf } from '../../src/rules/settings.ts'
import { athlete, type Case } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const knee: Case = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }
const findings = (prescription: { because: readonly { finding: string }[] } | undefined) =>
  prescription?.because.map(({ finding }) => finding)

describe('what takes running away altogether', () => {
  const hold = (is: Case, day = '2026-03-02') => {
    const { move, what, because } = athlete(is).morning(day) ?? {}
    return [move, what, because?.[0]?.finding]
  }
  test('no running before the day that the surgeon named, and running on it', () => {
    const is = { ...knee, episode: { noRunBefore: '2026-03-03' } }
    expect(hold(is)).toEqual(['hold', 'rest', 'surgeon'])
    expect(athlete(is).morning('2026-03-03')?.what).toBe('run')
  })
  test('a clearance holds on its last day and not on the next', () => {
    const is = { ...knee, clearedUntil: '2026-03-02' }
    expect(athlete(is).morning('2026-03-02')?.what).toBe('run')
    expect(hold(is, '2026-03-03')).toEqual(['hold', 'rest', 'clearance-lapsed'])
  })
  test('cleared for no running', () => {
    expect(hold({ ...knee, state: 'no running' })).toEqual(['hold', 'rest', 'cleared-for-none'])
  })
  test('a hold of the therapist, until the same or another therapist lifts it', () => {
    const ada = athlete(knee)
    ada.byTherapist('2026-03-01', { kind: 'hold', words: 'Wait for the scan.' }, '13:00')
    expect(findings(ada.morning('2026-03-02'))).toEqual(['hold'])
    ada.byTherapist('2026-03-02', { kind: 'hold-lifted', hold: 'hold/ada/1', words: 'Scan is fine.' })
    expect(ada.morning('2026-03-03')?.what).toBe('run')
  })
  test('without a clearance, and without a plan, there is no run', () => {
    const ada = athlete(knee)
    const strike = (strikes: string) =>
      ada.byTherapist('2026-03-01', { kind: 'amendment', strikes, words: 'Wrong athlete.' }, '14:00')
    strike('clearance/ada/1')
    expect(findings(ada.morning('2026-03-02'))).toEqual(['not-cleared'])
    strike('plan-signed/ada/1')
    expect(findings(ada.morning('2026-03-03'))).toEqual(['no-plan'])
  })
})

describe('what stops is said in the order of its weight', () => {
  const morningOf = (ada: ReturnType<typeof athlete>) => {
    const checkIn = ada.chart().checkIns.at(-1)
    if (!checkIn) throw new Error('no check-in')
    return checkIn
  }
  test('an open call before all else, and a hold before a plan that is not there', () => {
    const ada = athlete(knee)
    ada.morning('2026-03-02', { swelling: 'yes' })
    expect(whatStops(ada.chart(), morningOf(ada))?.finding).toBe('open-call')
    const held = athlete(knee)
    held.byTherapist('2026-03-01', { kind: 'hold', words: 'Wait for the scan.' }, '13:00')
    held.byTherapist(
      '2026-03-01',
      { kind: 'amendment', strikes: 'plan-signed/ada/1', words: 'Wrong ladder.' },
      '14:00',
    )
    expect(held.morning('2026-03-02')).toMatchObject({ ladder: 'none', because: [{ finding: 'hold' }] })
  })
  test('more swollen, or perhaps: said as it was answered', () => {
    const ada = athlete(knee)
    ada.morning('2026-03-02')
    const stops = (swelling: 'yes' | 'not sure') =>
      whatStops(ada.chart(), { ...morningOf(ada), swelling })?.words
    expect(stops('yes')).toMatch(/^More swollen than yesterday: /)
    expect(stops('not sure')).toMatch(/^Perhaps more swollen than yesterday: /)
  })
  test('2+ once is an effusion; for the third visit the team is told [white-soreness-effusion]', () => {
    const graded = (days: readonly string[]) => {
      const ada = athlete(knee)
      for (const day of days)
        ada.byTherapist(day, { kind: 'measure', measure: 'effusion-grade', day, value: 2 })
      const [because] = ada.morning('2026-03-09')?.because ?? []
      return [because?.finding, because?.words]
    }
    expect(graded(['2026-03-02'])).toEqual([
      'effusion',
      'The effusion was graded 2+ or more: no running until it is graded lower.',
    ])
    expect(graded(['2026-03-02', '2026-03-04', '2026-03-06'])).toEqual([
      'effusion-again',
      'The effusion is 2+ or more for the third visit: no running, and the team is told.',
    ])
  })
  test('a graded effusion is the matter of a joint alone', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    ada.live('2026-03-02', 3)
    for (const [day, value] of [
      ['2026-03-04', 2],
      ['2026-03-05', 1],
    ] as const)
      ada.byTherapist(day, { kind: 'measure', measure: 'effusion-grade', day, value }, '20:00')
    ada.morning('2026-03-05')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'up', what: 'run' })
  })
  test('a chart that does not say what heals is read as a bone, the strictest', () => {
    const ada = athlete(knee)
    ada.morning('2026-03-02')
    ada.run('2026-03-02', { painDuring: 1 })
    ada.byTherapist(
      '2026-03-02',
      { kind: 'amendment', strikes: 'episode/ada/1', words: 'Wrong side.' },
      '20:00',
    )
    const [session] = ada.chart().sessions
    const settings = settingsOf({ ...ada.chart(), plan: undefined })
    expect(settings).toMatchObject({ painDuringMost: 0, holdOnPainDuring: true })
    expect(sourceOf(ada.chart(), 'painDuringMost')).toBe('vincent-2022')
    expect(session && respond({ ...ada.chart(), plan: undefined }, session, '2026-03-03').response).toBe(
      'flared',
    )
    expect(whatStops(ada.chart(), morningOf(ada))).toBeUndefined()
  })
})

describe('swelling of a joint', () => {
  test('not sure of it holds that day and tells the therapist; it holds no other tissue', () => {
    const ada = athlete(knee)
    expect(ada.morning('2026-03-02', { swelling: 'not sure' })).toMatchObject({ move: 'hold', what: 'rest' })
    expect(ada.notices()).toContain('note to iben')
    expect(athlete(tibia).morning('2026-03-02', { swelling: 'not sure' })?.what).toBe('run')
  })
  test('a yes is a call the same day, for a joint; for another tissue it is not', () => {
    const ada = athlete(knee)
    expect(ada.morning('2026-03-02', { swelling: 'yes' })).toBeUndefined()
    expect(ada.notices()).toContain('call to iben')
    expect(athlete(tibia).morning('2026-03-02', { swelling: 'yes' })?.what).toBe('run')
  })
  test('graded the same day, the grade decides: a trace runs, 2+ does not, and neither on the days after', () => {
    const graded = (value: number) => {
      const ada = athlete(knee)
      ada.byTherapist(
        '2026-03-02',
        { kind: 'measure', measure: 'effusion-grade', day: '2026-03-02', value },
        '06:00',
      )
      const today = ada.morning('2026-03-02', { swelling: 'not sure' })?.what
      return [today, ada.morning('2026-03-03')?.what]
    }
    expect(graded(0.5)).toEqual(['run', 'exercise'])
    expect(graded(2)).toEqual(['rest', 'rest'])
  })
  test('1+ at the visit after a hold: the same level, though everything settled [white-soreness-effusion]', () => {
    const ada = athlete({ ...knee, startRung: 2, days: ['mon', 'thu'] })
    ada.live('2026-03-02', 4)
    const grade = (day: string, value: number) =>
      ada.byTherapist(day, { kind: 'measure', measure: 'effusion-grade', day, value })
    grade('2026-03-06', 2)
    grade('2026-03-08', 1)
    ada.live('2026-03-06', 3)
    const monday = ada.morning('2026-03-09')
    expect([monday?.move, monday?.rung, findings(monday)]).toEqual([
      'repeat',
      2,
      ['response-settled', 'effusion-same-level'],
    ])
  })
})

describe('pain in the run of a bone', () => {
  const hurt = () => {
    const ada = athlete({ ...tibia, startRung: 3 })
    ada.morning('2026-03-02')
    const written = ada.run('2026-03-02', { painDuring: 1 })
    return { ada, written }
  }
  test('puts running on hold at once; athlete, therapist and coaches hear of it [vincent-2022]', () => {
    const { ada, written } = hurt()
    expect(written.map(({ kind, id }) => `${kind} ${id}`)).toEqual([
      'session-done session/ada/2026-03-02',
      'hold hold/session/ada/2026-03-02',
    ])
    expect(ada.notices()).toEqual(['told to ada', 'cleared to noor', 'cleared to tove', 'note to iben'])
  })
  test('the rung that waits behind the hold is one lower, and is said', () => {
    const { ada } = hurt()
    expect(ada.morning('2026-03-03')).toMatchObject({ move: 'hold', what: 'rest', rung: 2 })
  })
  test('a new plan does not judge the runs under the old one again: their hold stands by itself', () => {
    const { ada } = hurt()
    expect(ada.morning('2026-03-03')?.because[0]).toEqual({
      finding: 'hold-after-pain',
      words: 'Pain 1 of 10 in the run on 2026-03-02: on hold until a therapist lifts it.',
      source: 'vincent-2022',
    })
    ada.byTherapist('2026-03-03', {
      kind: 'plan-signed',
      ladder: 'tibial-stress-reaction-lbpp',
      startRung: 1,
      days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
      ceiling: { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 },
    })
    expect(findings(ada.morning('2026-03-04'))?.[0]).toBe('hold')
  })
  test('striking out the hold lifts nothing; lifting it does; striking out the session does', () => {
    const struck = hurt().ada
    struck.byTherapist(
      '2026-03-02',
      { kind: 'amendment', strikes: 'hold/session/ada/2026-03-02', words: 'x' },
      '18:00',
    )
    expect(struck.morning('2026-03-04')?.what).toBe('rest')
    const lifted = hurt().ada
    lifted.byTherapist(
      '2026-03-02',
      { kind: 'hold-lifted', hold: 'hold/session/ada/2026-03-02', words: 'Seen.' },
      '18:00',
    )
    lifted.morning('2026-03-03')
    expect(lifted.morning('2026-03-04')).toMatchObject({ move: 'back', what: 'run', rung: 2 })
  })
  test('a tendon within its rule is not held, and above it goes back without a hold', () => {
    const ada = athlete({
      tissue: 'tendon',
      ladder: 'tendon-pain-monitored',
      state: 'unloaded running',
      startRung: 3,
    })
    ada.morning('2026-03-02')
    expect(ada.run('2026-03-02', { painDuring: 6 })).toHaveLength(1)
    expect(ada.notices()).toEqual(['note to iben'])
    expect(ada.morning('2026-03-03', { worstPain: 2 })).toMatchObject({
      move: 'back',
      what: 'exercise',
      rung: 2,
    })
  })
})
