import { describe, expect, test } from 'vitest'
import { athlete, type Case } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const answers = { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] } }
const sent = (ada: ReturnType<typeof athlete>, at: string, day: string, over: object = {}) =>
  ada.handIn('ada', 'athlete', at, { kind: 'check-in', day, answers: { ...answers, ...over } })
const strike = (ada: ReturnType<typeof athlete>, strikes: string, time = '09:00') =>
  ada.byTherapist('2026-03-02', { kind: 'amendment', strikes, words: 'Typed for another day.' }, time)

describe('a form that is not for now is refused in words', () => {
  test('of another day, twice on a day, or with a question left open', () => {
    const ada = athlete(tibia)
    expect(() => sent(ada, '2026-03-03T07:00:00.000Z', '2026-03-02')).toThrow(
      "other-day: This form was for 2026-03-02. Please open today's.",
    )
    expect(() => sent(ada, '2026-03-02T07:00:00.000Z', '2026-03-02', { signs: { always: [] } })).toThrow(
      'Tick what applies, or "none of these". [signs-bone]',
    )
    ada.morning('2026-03-02')
    expect(() => ada.morning('2026-03-02')).toThrow('already-recorded: You have checked in for today.')
  })
  test('soon after surgery without a temperature', () => {
    const ada = athlete({
      tissue: 'joint',
      ladder: 'knee-eight-levels-treadmill',
      episode: { surgeryDay: '2026-02-20' },
    })
    expect(() => ada.morning('2026-03-02', { temperature: undefined })).toThrow(
      'Type your temperature, or tick that you have not taken it. [temperature]',
    )
    expect(ada.morning('2026-03-02', { temperature: 36.8 })?.what).toBe('run')
  })
})

describe('a check-in that was struck out', () => {
  test('takes the run with it, and the athlete is asked to answer again', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    strike(ada, 'check-in/ada/2026-03-02')
    expect(ada.notices()).toContain('prescription to ada')
    expect(ada.chart().prescriptions.at(-1)).toMatchObject({
      id: 'prescription/ada/2026-03-02/2',
      move: 'hold',
      what: 'rest',
      because: [
        {
          finding: 'struck',
          words: 'The answer behind it was struck out. Please check in again.',
          source: 'common-practice',
        },
      ],
    })
    expect(ada.chart().prescriptions.at(-1)?.dose).toBeUndefined()
  })
  test('is answered anew under an id of its own, with a run of its own', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    strike(ada, 'check-in/ada/2026-03-02', '06:59')
    expect(ada.morning('2026-03-02')?.id).toBe('prescription/ada/2026-03-02/3')
    expect(ada.chart().checkIns.map(({ id }) => id)).toEqual(['check-in/ada/2026-03-02/2'])
    ada.morning('2026-03-03')
    expect(ada.chart().checkIns.at(-1)?.id).toBe('check-in/ada/2026-03-03')
  })
  test('on a day without a run leaves nothing to take back, and of a run that is done takes nothing', () => {
    const resting = athlete({ ...tibia, days: ['tue'] })
    resting.morning('2026-03-02')
    strike(resting, 'check-in/ada/2026-03-02')
    expect(resting.chart().prescriptions).toHaveLength(1)
    const ran = athlete(tibia)
    ran.live('2026-03-02', 1)
    strike(ran, 'check-in/ada/2026-03-02', '20:00')
    expect(ran.chart().prescriptions).toHaveLength(1)
  })
})

describe('what changes under a prescription that is out decides it anew (D7)', () => {
  const ceiling = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 }
  const clear = (ada: ReturnType<typeof athlete>, over: object) =>
    ada.byTherapist('2026-03-02', {
      kind: 'clearance',
      state: 'unloaded running',
      until: '2026-12-31',
      ceiling: { ...ceiling, ...over },
    })
  test('a lower speed is another run, and the athlete is told; a ceiling that does not touch it is not', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    clear(ada, { speedMps: 2.5 })
    expect(ada.notices()).toContain('prescription to ada')
    expect(ada.chart().prescriptions.map(({ dose }) => dose?.bouts[0]?.speedMps?.high)).toEqual([
      7 * 0.44704,
      2.5,
    ])
    const untouched = athlete(tibia)
    untouched.morning('2026-03-02')
    clear(untouched, { runMinutes: 30 })
    expect(untouched.chart().prescriptions).toHaveLength(1)
    expect(untouched.notices()).not.toContain('prescription to ada')
  })
  test('nothing is out before the check-in, nor is anything told of yesterday', () => {
    const ada = athlete(tibia)
    clear(ada, { speedMps: 2.5 })
    expect(ada.chart().prescriptions).toEqual([])
    const yesterday = athlete(tibia)
    yesterday.morning('2026-03-01')
    clear(yesterday, { speedMps: 2.5 })
    expect(yesterday.chart().prescriptions).toHaveLength(1)
  })
})
