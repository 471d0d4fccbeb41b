import { describe, expect, test } from 'vitest'
import { SessionDone } from '../../src/chart/session.ts'
import { aboveCeiling, remarks } from '../../src/rules/session.ts'
import { athlete, type Case } from './life.ts'

const tibia: Case = {
  tissue: 'bone',
  ladder: 'tibial-stress-reaction-lbpp',
  state: 'unloaded running',
  ceiling: { bodyWeightPct: 60, speedMps: 3, runMinutes: 10 },
}
const bout = { gait: 'run', bodyWeightPct: 60, speedMps: 3, inclinePct: 0, minutes: 2, repeats: 5 }

function ran(change: object, log: object = {}) {
  const ada = athlete(tibia)
  ada.morning('2026-03-02')
  ada.run('2026-03-02', { bouts: [{ ...bout, ...change }], ...log })
  const session = ada.chart().sessions[0]
  if (!session) throw new Error('no run')
  return { ada, session, notes: ada.notices().filter((notice) => notice === 'note to iben').length }
}

describe('more than was signed is written down, and the therapist hears of it the same day', () => {
  const rows: [string, object, boolean][] = [
    ['at the ceiling', {}, false],
    ['one percent more body weight', { bodyWeightPct: 61 }, true],
    ['set as signed and weighed heavier inside', { measuredBodyWeightPct: 62 }, true],
    ['set higher and weighed as signed', { bodyWeightPct: 65, measuredBodyWeightPct: 60 }, false],
    ['faster', { speedMps: 3.01 }, true],
    ['longer', { repeats: 6 }, true],
    ['walking is not counted', { gait: 'walk', speedMps: 3.5, repeats: 20 }, false],
  ]
  for (const [title, change, above] of rows)
    test(title, () => {
      const { ada, session, notes } = ran(change)
      expect(aboveCeiling(ada.chart(), session)).toBe(above)
      expect(notes).toBe(above ? 1 : 0)
    })
  test('and above the limit of the surgeon, while it holds', () => {
    const ada = athlete({ ...tibia, episode: { surgeonLimits: { speedMps: 2, until: '2026-03-02' } } })
    ada.morning('2026-03-02')
    ada.run('2026-03-02', { bouts: [bout] })
    const [session] = ada.chart().sessions
    expect(session && aboveCeiling(ada.chart(), session)).toBe(true)
    expect(session && aboveCeiling(ada.chart(), { ...session, day: '2026-03-03' })).toBe(false)
  })
})

describe('what the therapist hears of a run', () => {
  test('nothing of an ordinary one', () => {
    const { ada, session, notes } = ran({})
    expect(remarks(ada.chart(), session)).toEqual([])
    expect(notes).toBe(0)
  })
  test('pain, soreness that stayed or came back, a limp and its side', () => {
    const { ada, session } = ran(
      {},
      { painDuring: 2, soreness: 'warm-up-stayed', gait: { looked: 'limp', side: 'right' } },
    )
    expect(remarks(ada.chart(), session)).toEqual([
      'pain 2 of 10 during the run',
      'soreness came in the warm-up and stayed',
      'a limp on the right side',
    ])
    const again = ran({}, { soreness: 'went-and-came-back' })
    expect(remarks(again.ada.chart(), again.session)).toEqual(['soreness went and came back'])
    expect(
      remarks(ada.chart(), { ...session, painDuring: 0, soreness: 'none', gait: { looked: 'even' } }),
    ).toEqual([])
  })
  test('a run on a day without one', () => {
    const ada = athlete(tibia)
    ada.live('2026-03-02', 1)
    ada.morning('2026-03-03')
    ada.run('2026-03-03', { bouts: [bout] })
    expect(ada.notices()).toContain('note to iben')
    expect(ada.chart().sessions.at(-1)?.rung).toBe(1)
  })
})

describe('a run is written down with what it belongs to', () => {
  test('the prescription of that day, its rung, and who logged it', () => {
    const { session } = ran({})
    expect(session).toMatchObject({ about: 'prescription/ada/2026-03-02', rung: 1, author: 'ada' })
    expect(session.heard).toBeUndefined()
  })
  test('without a prescription: the rung of the run before, or the one the plan starts on', () => {
    const ada = athlete({ ...tibia, startRung: 2 })
    ada.run('2026-03-02', { bouts: [bout] })
    expect(ada.chart().sessions[0]).toMatchObject({ rung: 2 })
    expect(ada.chart().sessions[0]?.about).toBeUndefined()
    const later = athlete({
      ...tibia,
      startRung: 2,
      ceiling: { bodyWeightPct: 50, speedMps: 3, runMinutes: 10 },
    })
    later.live('2026-03-02', 1)
    later.run('2026-03-04', { bouts: [bout] })
    expect(later.chart().sessions.map(({ rung }) => rung)).toEqual([1, 1])
  })
  test('a note is read by the therapist; words of an emergency in it ring', () => {
    const { ada, notes } = ran({}, { note: 'Felt good on the new shoes.' })
    expect(notes).toBe(1)
    expect(ada.chart().sessions[0]?.heard).toBeUndefined()
    const rang = ran({}, { note: 'I had chest pain at the end.' })
    expect(rang.session.heard?.length).toBeGreaterThan(0)
    expect(rang.ada.notices()).toContain('call to iben')
    const hurt = ran({}, { note: 'Shin felt it.', painDuring: 1 })
    expect(hurt.notes).toBe(1)
  })
  test('pain in a bone says in the hold what was found and where the rule comes from', () => {
    const { ada } = ran({}, { painDuring: 1 })
    expect(ada.chart().holds[0]).toMatchObject({
      about: 'session/ada/2026-03-02',
      because: [
        { finding: 'pain-in-run', words: 'Pain 1 of 10 in the run on 2026-03-02.', source: 'vincent-2022' },
      ],
    })
  })
  test('without a signed plan there is nothing to log a run under', () => {
    const ada = athlete(tibia)
    ada.byTherapist(
      '2026-03-01',
      { kind: 'amendment', strikes: 'plan-signed/ada/1', words: 'Wrong ladder.' },
      '14:00',
    )
    expect(() => ada.run('2026-03-02', { bouts: [bout] })).toThrow('No plan is signed yet')
    const session = ran({}).session
    expect(aboveCeiling(ada.chart(), session)).toBe(false)
  })
})

describe('what cannot be logged is refused in words', () => {
  test('a day that has not come, a day before the enrolment, the same day twice', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    const log = (day: string) =>
      ada.handIn('ada', 'athlete', '2026-03-02T17:00:00.000Z', {
        kind: 'session-done',
        day,
        bouts: [bout],
        painBefore: 0,
        painDuring: 0,
        painAfter: 0,
        rpe: 3,
      })
    expect(() => log('2026-03-03')).toThrow('That day has not come yet.')
    expect(() => log('2026-02-28')).toThrow('before the enrolment')
    expect(() => log('2026-02-28')).toThrow('[day]')
    log('2026-03-01')
    log('2026-03-02')
    expect(() => log('2026-03-02')).toThrow('logged already')
  })
  test('a struck run may be logged anew, under an id of its own', () => {
    const { ada } = ran({ minutes: 9 })
    ada.byTherapist(
      '2026-03-02',
      { kind: 'amendment', strikes: 'session/ada/2026-03-02', words: 'Typed wrong.' },
      '18:00',
    )
    expect(ada.chart().sessions).toHaveLength(0)
    ada.run('2026-03-02', { bouts: [bout] })
    expect(ada.chart().sessions.map(({ id }) => id)).toEqual(['session/ada/2026-03-02/2'])
    ada.byTherapist(
      '2026-03-02',
      { kind: 'amendment', strikes: 'session/ada/2026-03-02/2', words: 'Typed wrong again.' },
      '19:00',
    )
    ada.run('2026-03-02', { bouts: [bout] })
    expect(ada.chart().sessions.map(({ id }) => id)).toEqual(['session/ada/2026-03-02/3'])
  })
  test('a limp says its side', () => {
    const limp = SessionDone.shape.gait.safeParse({ looked: 'limp' })
    expect(limp.success).toBe(false)
    expect(SessionDone.shape.gait.safeParse({ looked: 'limp', side: 'left' }).success).toBe(true)
    expect(SessionDone.shape.gait.safeParse({ looked: 'even' }).success).toBe(true)
  })
})

test('what was turned down on the way, exercises, balance and the gait stay with the run', () => {
  const log = {
    changes: [{ atMinute: 8, why: 'pain', pain: 1, bodyWeightPct: 50 }],
    gait: { looked: 'even', note: 'Short on the left at first.', filmKeptAt: 'clinic drive, March' },
    exercises: [
      { exercise: 'squat-supported', where: 'in-treadmill', sets: 3, repeats: 12, bodyWeightPct: 60 },
    ],
    balance: [{ side: 'left', eyes: 'closed', surface: 'floor', seconds: 21, capSeconds: 45 }],
  }
  expect(ran({}, log).session).toMatchObject(log)
})
