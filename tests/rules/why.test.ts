import { describe, expect, test } from 'vitest'
import { whatIf } from '../../src/rules/what-if.ts'
import { decide, reasonsFor } from '../../src/rules/why.ts'
import { athlete, team } from './life.ts'

const tibia = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' } as const
const findings = (because: readonly { finding: string }[]) => because.map(({ finding }) => finding)

describe('every decision answers why', () => {
  test('a run: the answer, the step, and the rung it came from', () => {
    const ada = athlete(tibia)
    ada.live('2026-03-02', 2)
    ada.morning('2026-03-04')
    expect(ada.decide('2026-03-04')).toMatchObject({
      disposition: 'continue',
      move: 'repeat',
      prescription: { rung: 1, what: 'run', ladder: 'tibial-stress-reaction-lbpp@1' },
      because: [
        { finding: 'response-settled', source: 'vincent-2022' },
        { finding: 'not-often-enough', source: 'vincent-2022' },
      ],
    })
  })
  test('nothing answered is waiting, not fine', () => {
    expect(athlete(tibia).decide('2026-03-02')).toEqual({
      disposition: 'waiting',
      move: 'hold',
      prescription: null,
      because: [
        {
          finding: 'no-check-in',
          words: 'No check-in on 2026-03-02 yet: check in first. Without an answer there is no progression.',
          source: 'common-practice',
        },
      ],
    })
  })
  test('a red flag outranks the ladder: its reasons and no prescription', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02', { signs: { always: ['chest-pain'], bone: [] } })
    expect(ada.decide('2026-03-02')).toMatchObject({ disposition: 'stop', move: 'hold', prescription: null })
    expect(findings(ada.decide('2026-03-02').because)).toEqual(['chest-or-faint'])
  })
  test('rest is no prescription, exercises are one', () => {
    const ada = athlete({ ...tibia, clearedUntil: '2026-03-03' })
    ada.live('2026-03-02', 3)
    expect(ada.decide('2026-03-03').prescription?.what).toBe('exercise')
    expect(ada.decide('2026-03-04').prescription).toBeNull()
  })
  test('what the therapist hears is a note, and is said once', () => {
    const ada = athlete({
      tissue: 'tendon',
      ladder: 'tendon-pain-monitored',
      state: 'unloaded running',
      startRung: 2,
    })
    ada.morning('2026-03-02')
    ada.run('2026-03-02', { painDuring: 6 })
    ada.morning('2026-03-03', { worstPain: 1 })
    expect(ada.decide('2026-03-03').disposition).toBe('note')
    ada.morning('2026-03-04', { worstPain: 1 })
    expect(ada.decide('2026-03-04').disposition).toBe('continue')
    const [first, second] = ada.chart().checkIns.slice(1)
    expect(first && findings(reasonsFor(ada.chart(), first, team))).toEqual(['response-flared'])
    expect(second && reasonsFor(ada.chart(), second, team)).toEqual([])
  })
})

describe('what if', () => {
  function other(change: string) {
    const ada = athlete(tibia)
    ada.live('2026-03-02', 2)
    ada.morning('2026-03-04')
    const now = '2026-03-04T07:05:00.000Z'
    const chart = whatIf(ada.chart(), change, now)
    return 'refused' in chart ? chart.words : decide(chart, team, now)
  }
  test('an answer of the morning', () => {
    expect(other('worst-pain=1')).toMatchObject({ move: 'back', prescription: { what: 'exercise' } })
    expect(other('swelling=yes')).toMatchObject({ move: 'repeat' })
    expect(other('worst-pain=0')).toMatchObject({ move: 'repeat', prescription: { what: 'run' } })
  })
  test('a sign that was not ticked', () => {
    expect(other('sign=chest-pain')).toMatchObject({ disposition: 'stop' })
    expect(other('sign=sore-spot')).toMatchObject({ disposition: 'note' })
  })
  test('an answer of the last run', () => {
    expect(other('pain-during=1')).toMatchObject({
      move: 'hold',
      because: [{ finding: 'hold-after-pain' }, {}, {}],
    })
    expect(other('painAfter=1')).toMatchObject({ move: 'back' })
  })
  test('what is no answer is refused', () => {
    expect(other('worst-pain')).toBe('Say it as worst-pain=3.')
    expect(other('say worst-pain=3')).toBe('Say it as worst-pain=3.')
    expect(other(' worst-pain=1 ')).toMatchObject({ move: 'back' })
    expect(other('worst-pain=1.25')).not.toMatchObject({ move: 'back' })
    expect(other('worst-pain=1x')).not.toMatchObject({ move: 'back' })
    expect(other('worst-pain=11')).toContain('10')
    expect(other('swelling=perhaps')).toContain('no')
    expect(other('sign=cold')).toBe('There is no sign cold.')
    expect(other('mood=3')).toContain('There is no answer called mood')
    const now = '2026-03-02T07:05:00.000Z'
    expect(other('mood=3')).toContain('There are worst-pain, morning-pain, swelling')
    expect(whatIf(athlete(tibia).chart(), 'worst-pain=3', now)).toEqual({
      refused: 'cannot-ask',
      words: 'There is no check-in today whose answers could be others.',
    })
    const first = athlete(tibia)
    first.morning('2026-03-02')
    expect(whatIf(first.chart(), 'pain-during=3', now)).toMatchObject({ words: 'No run is logged yet.' })
  })
})
