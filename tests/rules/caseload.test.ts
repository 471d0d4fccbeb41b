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

test('the caseload is in the order of what is most urgent', () => {
  const quiet = bone()
  const held = bone()
  held.byTherapist('2026-03-02', { kind: 'hold', words: 'Limps' })
  const called = bone()
  called.morning('2026-03-02', { signs: { always: ['chest-pain'] } })
  const lines = caseload([quiet.chart(), held.chart(), called.chart()], team, '2026-03-02T12:30:00.000Z')
  expect(lines.map((one) => one.wants)).toEqual(['open call', 'hold', 'nothing'])
})
