import { describe, expect, test } from 'vitest'
import { caseLine, caseload } from '../../src/rules/caseload.ts'
import { athlete, team } from './life.ts'

const bone = () =>
  athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp@1', clearedUntil: '2026-03-20' })
const at = (day: string, time = '07:30') => `${day}T${time}:00.000Z`
const line = (is: ReturnType<typeof bone>, instant: string) => caseLine(is.chart(), team, instant)

describe('what wants an eye', () => {
  test('nothing, while all is quiet', () => {
    expect(line(bone(), at('2026-03-02')).wants).toBe('nothing')
  })

  test('an open call before its hold, the hold once the call is closed', () => {
    const is = bone()
    is.morning('2026-03-02', { signs: { always: ['chest-pain'] } })
    expect(line(is, at('2026-03-02')).wants).toBe('open call')
    const [call] = is.chart().escalations
    const of = { escalation: call?.id }
    is.byTherapist('2026-03-02', { kind: 'call-acknowledged', ...of }, '08:00')
    is.byTherapist(
      '2026-03-02',
      { kind: 'escalation-closed', ...of, disposition: 'seen in person', words: 'Seen' },
      '09:00',
    )
    expect(line(is, at('2026-03-02', '10:00')).wants).toBe('hold')
  })

  test('a review a week after the plan, and not the day before', () => {
    expect(line(bone(), at('2026-03-07')).wants).toBe('nothing')
    expect(line(bone(), at('2026-03-08')).wants).toBe('review due')
  })

  test('after the review the next thing shows: a clearance three days before it lapses, not four', () => {
    const is = bone()
    is.byTherapist('2026-03-15', { kind: 'review', day: '2026-03-15', next: 'go on' })
    expect(line(is, at('2026-03-16')).wants).toBe('nothing')
    expect(line(is, at('2026-03-17')).wants).toBe('clearance lapses')
    expect(line(is, at('2026-03-21')).words).toContain('lapsed on 2026-03-20')
  })
})

describe('a request to correct the record', () => {
  const asked = () => {
    const is = bone()
    is.handIn('ada', 'athlete', at('2026-03-02'), { kind: 'amendment-request', words: 'Wrong side' })
    return is
  }
  test('stands with the day for an answer behind whatever is more urgent [cfr-164-526]', () => {
    const is = asked()
    expect(line(is, at('2026-03-02', '08:00'))).toMatchObject({
      wants: 'request open',
      words: expect.stringContaining('answer by 2026-05-01'),
    })
    is.byTherapist('2026-03-02', { kind: 'hold', words: 'Limps' }, '09:00')
    expect(line(is, at('2026-03-02', '10:00'))).toMatchObject({
      wants: 'hold',
      words: expect.stringContaining('answer by 2026-05-01'),
    })
  })
  test('is gone once it is answered', () => {
    const is = asked()
    const answer = { request: 'amendment-request/ada/1', outcome: 'appended', words: 'It is the left' }
    is.byTherapist('2026-03-02', { kind: 'amendment-request-answered', ...answer }, '09:00')
    expect(line(is, at('2026-03-02', '10:00')).wants).toBe('nothing')
  })
})

describe('what is not there, or not answered, is said in words', () => {
  const struck = (...ids: readonly string[]) => {
    const is = bone()
    for (const strikes of ids)
      is.byTherapist('2026-03-02', { kind: 'amendment', strikes, words: 'Wrong athlete.' }, '05:00')
    return line(is, at('2026-03-02'))
  }
  test('an episode, a plan, a clearance that nobody has written', () => {
    expect(struck('plan-signed/ada/1')).toEqual({
      athlete: 'ada',
      wants: 'not complete',
      words: 'no plan signed',
    })
    expect(struck('clearance/ada/1').words).toBe('no clearance')
    expect(struck('episode/ada/1').words).toBe('no episode written')
    expect(struck('episode/ada/1', 'plan-signed/ada/1', 'clearance/ada/1').words).toBe(
      'no episode written, no plan signed, no clearance',
    )
  })
  test('a morning that was asked and is not answered, and one that was missed', () => {
    const is = bone()
    const asked = { ...is.chart(), prompts: new Set(['2026-03-02']) as never }
    const of = (chart: typeof asked, time: string) => caseLine(chart, team, at('2026-03-02', time))
    expect(of(asked, '06:30').wants).toBe('nothing')
    expect(of(asked, '06:31')).toMatchObject({ wants: 'no answer', words: 'no answer yet this morning' })
    const missed = { ...asked, missed: new Map([['2026-03-02', { asked: true }]]) as never }
    expect(of(missed, '12:00').words).toBe('no answer on 2026-03-02')
    is.morning('2026-03-02')
    const answered = { ...is.chart(), prompts: new Set(['2026-03-02']) as never }
    expect(of(answered, '08:00')).toMatchObject({
      wants: 'nothing',
      words: 'cleared for ground running until 2026-03-20',
    })
  })
  test('holds, calls, reviews and clearances say what they are', () => {
    const held = bone()
    held.byTherapist('2026-03-02', { kind: 'hold', words: 'Limps' })
    expect(line(held, at('2026-03-02', '13:00')).words).toBe('on hold')
    const called = bone()
    called.morning('2026-03-02', { signs: { always: ['chest-pain'] } })
    expect(line(called, at('2026-03-02')).words).toBe('1 open call')
    expect(line(bone(), at('2026-03-08')).words).toBe('review due since 2026-03-08')
    const seen = bone()
    seen.byTherapist('2026-03-15', { kind: 'review', day: '2026-03-15', next: 'go on' })
    expect(line(seen, at('2026-03-20')).words).toBe('the clearance lapses after 2026-03-20')
  })
})

test('of two who want the same, by name', () => {
  const one = bone().chart()
  const names = caseload([{ ...one, athlete: 'zoe' }, one], team, at('2026-03-02'))
  expect(names.map(({ athlete }) => athlete)).toEqual(['ada', 'zoe'])
})

test('the caseload is in the order of what is most urgent', () => {
  const quiet = bone()
  const held = bone()
  held.byTherapist('2026-03-02', { kind: 'hold', words: 'Limps' })
  const called = bone()
  called.morning('2026-03-02', { signs: { always: ['chest-pain'] } })
  const lines = caseload([quiet.chart(), held.chart(), called.chart()], team, '2026-03-02T12:30:00.000Z')
  expect(lines.map((one) => one.wants)).toEqual(['open call', 'hold', 'nothing'])
})
