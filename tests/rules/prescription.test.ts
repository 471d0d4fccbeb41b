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

describe('limits win over the ladder', () => {
  test('every other day at most, and four sessions in seven days [capin-2018]', () => {
    const moves = athlete(knee).live('2026-03-02', 9)
    expect(moves.map((move) => move.endsWith('run'))).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      true,
      false,
      true,
    ])
  })
  test('three sessions in seven days on a ladder that says so', () => {
    const ada = athlete({ tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' })
    ada.live('2026-03-02', 6)
    expect(findings(ada.morning('2026-03-08'))).toContain('week-full')
    expect(ada.morning('2026-03-09')?.what).toBe('run')
  })
  test('two days of rest on the phases that ask for it [children-hospital-2023]', () => {
    const moves = athlete({ ...knee, ladder: 'acl-nine-phases' }).live('2026-03-02', 4)
    expect(moves.map((move) => move.split(' ')[2])).toEqual(['run', 'exercise', 'exercise', 'run'])
  })
  test('a new plan gives no second run on the next day, and no new week', () => {
    const ada = athlete({ ...tibia })
    ada.live('2026-03-02', 3)
    ada.byTherapist(
      '2026-03-04',
      {
        kind: 'plan-signed',
        ladder: 'tibial-stress-reaction-lbpp',
        startRung: 1,
        days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
        ceiling: { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 },
      },
      '20:00',
    )
    expect(findings(ada.morning('2026-03-05'))).toContain('too-close')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'start', what: 'exercise' })
    expect(findings(ada.morning('2026-03-07'))).toContain('rung-full')
  })
  test('no more than so many rungs up in seven days, the stricter of ladder and tissue', () => {
    const ups = (settings: object) =>
      athlete({ ...knee, settings })
        .live('2026-03-02', 14)
        .filter((move) => move.startsWith('up') && move.endsWith('run')).length
    expect(ups({})).toBe(1)
    expect(ups({ rungsUpPer7Days: 2 })).toBe(3)
  })
  test('days that are not run days', () => {
    const ada = athlete({ ...knee, days: ['tue'] })
    expect(findings(ada.morning('2026-03-02'))).toContain('not-a-run-day')
    expect(ada.morning('2026-03-03')?.what).toBe('run')
  })
  test('what hurts today does not run today, by the rule of its tissue', () => {
    expect(findings(athlete(tibia).morning('2026-03-02', { worstPain: 1 }))).toContain('pain-today')
    expect(findings(athlete(knee).morning('2026-03-02', { morningPain: 1 }))).toContain('pain-today')
    const tendon: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' }
    expect(athlete(tendon).morning('2026-03-02', { worstPain: 5, morningPain: 5 })?.what).toBe('run')
    expect(findings(athlete(tendon).morning('2026-03-02', { worstPain: 6 }))).toContain('pain-today')
  })
  test('the ceiling keeps the run on the highest rung that fits; below the first rung there is none', () => {
    const under = (bodyWeightPct: number) =>
      athlete({ ...tibia, startRung: 3, ceiling: { bodyWeightPct, speedMps: 3.6, runMinutes: 60 } }).morning(
        '2026-03-02',
      )
    expect(under(70)).toMatchObject({ move: 'start', rung: 3 })
    expect(under(69)).toMatchObject({ move: 'back', rung: 2, what: 'run' })
    expect(under(49)).toMatchObject({ move: 'hold', what: 'rest' })
    expect(findings(under(49))).toContain('out-of-reach')
  })
  test('cleared for unloaded running runs in the LBPP treadmill and nowhere else', () => {
    const last: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', startRung: 8 }
    const unloaded = athlete({ ...last, state: 'unloaded running' }).morning('2026-03-02')
    expect(unloaded).toMatchObject({ rung: 7, dose: { on: 'lbpp-treadmill' } })
    expect(findings(unloaded)).toContain('place-not-cleared')
    expect(athlete({ ...last, state: 'ground running' }).morning('2026-03-02')).toMatchObject({
      rung: 8,
      dose: { on: 'ground' },
    })
    expect(athlete({ ...last, state: 'return to sport' }).morning('2026-03-02')?.rung).toBe(8)
  })
})

describe('silence', () => {
  test('a run that was prescribed and not logged: no run the next day, no step up until it is said', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', startRung: 2 })
    ada.live('2026-03-02', 4)
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'up', rung: 3, what: 'run' })
    const next = ada.morning('2026-03-07')
    expect(next).toMatchObject({ move: 'repeat', rung: 2, what: 'exercise' })
    expect(findings(next)).toEqual(['response-settled', 'not-logged', 'too-close'])
    ada.handIn('ada', 'athlete', '2026-03-07T08:00:00.000Z', { kind: 'run-skipped', day: '2026-03-06' })
    expect(ada.morning('2026-03-08')).toMatchObject({ move: 'up', what: 'run', rung: 3 })
  })
  test('logged late, it counts on the day on which it was run', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', startRung: 2 })
    ada.morning('2026-03-02')
    ada.morning('2026-03-03')
    ada.morning('2026-03-04')
    ada.run('2026-03-04')
    ada.run('2026-03-02', { painDuring: 4 })
    ada.morning('2026-03-05')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 2 })
  })
  test('a run cut short may settle and still does not count as the rung done', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    const short = {
      bouts: [{ gait: 'run', bodyWeightPct: 100, speedMps: 2.5, inclinePct: 0, minutes: 3, repeats: 1 }],
    }
    ada.live('2026-03-02', 4, (day) => (day === '2026-03-04' ? { run: short } : {}))
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 1 })
    const light = {
      bouts: [{ gait: 'run', bodyWeightPct: 60, speedMps: 2.5, inclinePct: 0, minutes: 1, repeats: 5 }],
    }
    const mika = athlete({ ...tibia, startRung: 3 })
    mika.live('2026-03-02', 7, () => ({ run: light }))
    expect(mika.morning('2026-03-09')).toMatchObject({ move: 'repeat', rung: 3 })
  })
})

describe('steps', () => {
  test('proposed instead of offered where the therapist signs each step, and the therapist is told once', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases', settings: { stepUp: 'propose' } })
    ada.live('2026-03-02', 3)
    expect(ada.morning('2026-03-05')?.what).toBe('exercise')
    expect(ada.notices()).toContain('note to iben')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'repeat', rung: 1, proposedRung: 2, what: 'run' })
    expect(ada.notices()).not.toContain('note to iben')
  })
  test('back from the first rung is the first rung at its easiest', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    ada.live('2026-03-02', 2, () => ({ run: { painDuring: 1 } }))
    const eased = ada.morning('2026-03-04')
    expect(eased).toMatchObject({ move: 'back', rung: 1, what: 'run' })
    expect(eased?.dose?.bouts[0]?.repeats).toEqual({ low: 2, high: 2 })
    expect(eased?.dose?.bouts[0]?.speedMps?.high).toBe(eased?.dose?.bouts[0]?.speedMps?.low)
  })
  test('pain after a stress fracture: three days without a run and one stage back [stress-fracture-handout]', () => {
    const ada = athlete({ tissue: 'bone', ladder: 'stress-fracture-walk-run', startRung: 4 })
    ada.morning('2026-03-02')
    ada.run('2026-03-02')
    expect(ada.morning('2026-03-03', { worstPain: 1 })).toMatchObject({
      move: 'back',
      rung: 3,
      restUntil: '2026-03-05',
      what: 'exercise',
    })
    ada.morning('2026-03-04')
    expect(ada.morning('2026-03-05')?.what).toBe('exercise')
    expect(ada.morning('2026-03-06')).toMatchObject({ move: 'back', rung: 3, what: 'run' })
  })
  test('days without a run name the signed exercises; a run says what to do on pain', () => {
    const ada = athlete({ ...tibia, programme: 'trunk-and-balance' })
    expect(ada.morning('2026-03-02')?.during).toEqual({
      painMost: 0,
      lowerBodyWeightPct: 10,
      leastBodyWeightPct: 20,
      lowerSpeedPct: 10,
      source: 'vincent-2022',
    })
    ada.run('2026-03-02')
    expect(ada.morning('2026-03-03')).toMatchObject({ what: 'exercise', programme: 'trunk-and-balance@1' })
    expect(athlete(knee).morning('2026-03-02')?.during).toMatchObject({
      painMost: 2,
      lowerBodyWeightPct: 0,
      leastBodyWeightPct: 100,
    })
  })
})
