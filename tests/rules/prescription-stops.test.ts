import { describe, expect, test } from 'vitest'
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
