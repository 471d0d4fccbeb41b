import { describe, expect, test } from 'vitest'
import { raises } from '../../src/rules/raises.ts'
import { Submission } from '../../src/rules/submissions.ts'
import { athlete, library } from './life.ts'

const day = '2026-03-02'
const signed = () =>
  athlete({
    tissue: 'bone',
    ladder: 'tibial-stress-reaction-lbpp@1',
    ceiling: { bodyWeightPct: 80, speedMps: 3, runMinutes: 20 },
    state: 'unloaded running',
  })
const what = (is: ReturnType<typeof signed>, submission: object) =>
  raises(is.chart(), Submission.parse({ athlete: 'ada', ...submission }), library, day)
const clearance = (ceiling: object, state = 'unloaded running') => ({
  kind: 'clearance',
  state,
  until: '2026-05-01',
  ceiling,
})

describe('a ceiling', () => {
  const same = { bodyWeightPct: 80, speedMps: 3, runMinutes: 20 }
  const cases = [
    { name: 'the same', ceiling: same, says: [] },
    { name: 'one lower', ceiling: { ...same, runMinutes: 19 }, says: [] },
    { name: 'one percent more', ceiling: { ...same, bodyWeightPct: 81 }, says: ['from 80 to 81 %'] },
    { name: 'faster', ceiling: { ...same, speedMps: 3.5 }, says: ['from 10.8 to 12.6 km/h'] },
    {
      name: 'higher in one and lower in another',
      ceiling: { bodyWeightPct: 70, speedMps: 3, runMinutes: 21 },
      says: ['from 20 to 21 min'],
    },
  ]
  for (const { name, ceiling, says } of cases)
    test(`${name}: ${says.length === 0 ? 'needs no question' : 'is asked about with both numbers'}`, () => {
      const sentences = what(signed(), clearance(ceiling))
      expect(sentences.length).toBe(says.length)
      for (const [i, words] of says.entries()) expect(sentences[i]).toContain(words)
    })

  test('a clearance without any ceiling lifts the one that was there', () => {
    const { ceiling: _, ...open } = clearance({})
    expect(what(signed(), open)).toEqual([
      'The clearance has no ceiling any more; the plan alone limits the run.',
    ])
  })

  test('of the plan is compared with the plan', () => {
    const plan = { kind: 'plan-signed', ladder: 'tibial-stress-reaction-lbpp@1', startRung: 1, days: ['mon'] }
    expect(what(signed(), { ...plan, ceiling: same })).toEqual([])
    expect(what(signed(), { ...plan, ceiling: { ...same, bodyWeightPct: 90 } })[0]).toContain('of the plan')
  })
})

describe('a clearance', () => {
  const ceiling = { bodyWeightPct: 80, speedMps: 3, runMinutes: 20 }
  test('that rises is asked about; one that falls, or takes running away, is not', () => {
    expect(what(signed(), clearance(ceiling, 'ground running'))[0]).toContain('rises from "unloaded running"')
    expect(what(signed(), clearance(ceiling, 'no running'))).toEqual([])
  })

  test('past criteria that nobody signed names what is open', () => {
    const is = athlete({
      tissue: 'bone',
      ladder: 'tibial-stress-reaction-lbpp@1',
      diagnosis: 'tibial stress reaction',
      state: 'no running',
      ceiling,
    })
    expect(what(is, clearance(ceiling)).join(' ')).toMatch(/is not signed: .*(missing|not met)/)
  })
})

describe('signing criteria', () => {
  const bone = (diagnosis: string) =>
    athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp@1', diagnosis, state: 'no running' })
  test('that are not met names the set and what is open, four by name and the rest by number', () => {
    const set = 'start-running-after-bone-stress-injury'
    expect(what(bone('stress fracture'), { kind: 'criteria-signed', set, words: 'x' })).toEqual([
      'You sign "Start running after a bone stress injury" although tenderness is missing, walking is missing, imaging is missing, tests is missing and 2 more are open.',
    ])
    expect(what(bone('any'), { kind: 'criteria-signed', set: 'no-such', words: 'x' })).toEqual([])
  })
  test('once signed, a clearance to that step is no question any more, and a further one is', () => {
    const is = bone('any')
    const asked = (state: string) =>
      what(is, clearance({ bodyWeightPct: 80, speedMps: 3, runMinutes: 20 }, state))
    const open =
      '"From the LBPP treadmill to running on the ground" is not signed: thirty-minutes is missing.'
    expect(asked('ground running')).toContain(open)
    expect(asked('unloaded running')).not.toContain(open)
    is.byTherapist(day, { kind: 'criteria-signed', set: 'lbpp-to-ground', words: 'No machine here.' })
    expect(asked('ground running')).not.toContain(open)
  })
  test('a first plan and a first clearance raise nothing: there is nothing they could be higher than', () => {
    const chart = signed().chart()
    const first = { ...chart, plan: undefined, clearance: undefined }
    const plan = { kind: 'plan-signed', ladder: 'tibial-stress-reaction-lbpp@1', startRung: 1, days: ['mon'] }
    const ceiling = { bodyWeightPct: 80, speedMps: 3, runMinutes: 20 }
    const of = (submission: object) =>
      raises(first, Submission.parse({ athlete: 'ada', ...submission }), library, day)
    expect(of({ ...plan, ceiling })).toEqual([])
    expect(of(clearance(ceiling)).filter((one) => one.includes('rises'))).toEqual([])
  })
  test('each number of a ceiling by its name', () => {
    const higher = what(signed(), clearance({ bodyWeightPct: 81, speedMps: 3.5, runMinutes: 21 }))
    expect(higher).toEqual([
      'The ceiling of the clearance for body weight carried rises from 80 to 81 %.',
      'The ceiling of the clearance for speed rises from 10.8 to 12.6 km/h.',
      'The ceiling of the clearance for running rises from 20 to 21 min.',
    ])
  })
})

describe('lifting a hold', () => {
  const words = 'Seen in person'
  test("a therapist's own hold needs no question", () => {
    const is = signed()
    is.byTherapist(day, { kind: 'hold', words: 'Limps' })
    expect(what(is, { kind: 'hold-lifted', hold: is.chart().holds[0]?.id, words })).toEqual([])
  })

  test('after an emergency the findings and what follows are repeated', () => {
    const is = signed()
    is.morning(day, { signs: { always: ['chest-pain'] } })
    const hold = is.chart().holds[0]
    const said = what(is, { kind: 'hold-lifted', hold: hold?.id, words })
    expect(said[0]).toContain('This hold came from an emergency')
    expect(said[0]).toContain('The call is still open.')
    expect(said[1]).toContain('next check-in')
  })
})

test('what raises nothing: a measure, an episode, a hold', () => {
  expect(what(signed(), { kind: 'hold', words: 'Limps' })).toEqual([])
  expect(what(signed(), { kind: 'measure', measure: 'pain', day, value: 3 })).toEqual([])
})

describe('rules of pain in a plan', () => {
  const knee = (settings: object = {}) =>
    athlete({ tissue: 'joint', ladder: 'knee-eight-levels-track', settings })
  const plan = (settings: object) => ({
    kind: 'plan-signed',
    ladder: 'knee-eight-levels-track',
    startRung: 1,
    days: ['mon'],
    ceiling: { bodyWeightPct: 20, speedMps: 1, runMinutes: 1 },
    settings,
  })
  test('the defaults, and what is stricter, need no question', () => {
    expect(what(knee(), plan({}))).toEqual([])
    expect(
      what(
        knee(),
        plan({ painDuringMost: 1, hoursWatched: 48, stepUp: 'propose', restDaysWhenSoreAfter: 2 }),
      ),
    ).toEqual([])
  })
  test('what is looser than the default is asked about, with the default, its source and its label (T7)', () => {
    const [pain, rungs, ...more] = what(knee(), plan({ painDuringMost: 3, rungsUpPer7Days: 2 }))
    expect(pain).toContain('most pain accepted in the run (0-10): 3, where 2 is [pain-model-page, read-2nd]')
    expect(rungs).toContain('rungs up in 7 days: 2, where 1 is [common-practice, common-practice]')
    expect(more).toEqual([])
    expect(what(knee(), plan({ lowerSpeedPct: 5 }))[0]).toContain('percent of speed off then: 5')
  })
  test('back to the default from what was signed stricter is asked about too, and not once it stands', () => {
    const strict = knee({ hoursWatched: 48, stepUp: 'propose', holdOnPainDuring: true })
    const says = what(strict, plan({}))
    expect(says.length).toBe(3)
    expect(says.join(' ')).toContain('hours watched after a run: 24, it was 48')
    expect(says.join(' ')).toContain('offered at once, it was proposed first')
    expect(says.join(' ')).toContain('waits for a therapist after pain in the run: no, it was yes')
    expect(what(strict, plan({ hoursWatched: 48, stepUp: 'propose', holdOnPainDuring: true }))).toEqual([])
  })
})
