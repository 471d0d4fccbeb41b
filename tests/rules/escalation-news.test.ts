import { describe, expect, test } from 'vitest'
import { type Chart, openEscalations } from '../../src/chart/chart.ts'
import { isRefusal } from '../../src/rules/decision.ts'
import { type Alarm, raise } from '../../src/rules/escalation.ts'
import { acknowledge, close, handOver } from '../../src/rules/escalation-answer.ts'
import { overdue } from '../../src/rules/escalation-due.ts'
import { callReasons, holdReasons } from '../../src/rules/in-confidence.ts'
import { adasChart, at, after as chartAfter, heardBy, kinds, people, teamOf } from './clinic-of-tests.ts'
import { inWords } from './in-order.ts'

const team = teamOf()
const licensed = team.clinic.support.licensed
const sore = { finding: 'bone-pain-at-night', words: 'Bone pain at night.', source: 'hoenig-2023' }
const calf = { finding: 'calf', words: 'A sore calf.', source: 'dvt-algorithm' }
const about = (day: string) => `check-in/ada/2026-05-${day}`
const id = `escalation/${about('12')}`
const urgent: Alarm = { concern: 'body', about: about('12'), tier: 'urgent', because: [sore] }
const support: Alarm = { ...urgent, concern: 'support', because: [{ ...sore, finding: 'self-harm' }] }
const raised = (chart: Chart, alarm: Alarm, time = '08:00') =>
  chartAfter(chart, raise(chart, alarm, team, at(time)))
const opened = () => raised(adasChart(), urgent)
const asked = (by: string, time = '08:10') => ({ by, team, now: at(time) })
const held = () => chartAfter(opened(), acknowledge(opened(), id, asked('iben')))
const heard = (decision: ReturnType<typeof acknowledge>) => (isRefusal(decision) ? [] : heardBy(decision))
const no = (decision: ReturnType<typeof acknowledge>) =>
  isRefusal(decision) ? inWords(decision).message : 'done'

describe('who hears what became of a call', () => {
  test('acknowledged: the athlete and whoever was called before, not the one who pressed', () => {
    expect(heard(acknowledge(opened(), id, asked('iben')))).toEqual(['call-news to ada'])
    const twice = chartAfter(opened(), overdue(opened(), team, at('09:00')))
    expect(heard(acknowledge(twice, id, asked('ravi', '09:05')))).toEqual([
      'call-news to iben',
      'call-news to ada',
    ])
  })
  test('handed over: the colleague is called and hears no news besides; closed: whoever was called', () => {
    const decision = handOver(
      held(),
      { escalation: id, to: 'kit', words: 'Bone is your field.' },
      asked('iben'),
    )
    expect(heard(decision)).toEqual(['call to kit'])
    const chart = chartAfter(held(), decision)
    expect(chart.escalations[0]?.handedOver).toMatchObject([
      { id: `${id}/handed-over/1`, to: 'kit', words: 'Bone is your field.' },
    ])
    const taken = chartAfter(chart, acknowledge(chart, id, asked('kit', '08:20')))
    const closing = { escalation: id, disposition: 'seen in person' as const, words: 'Seen.' }
    expect(heard(close(taken, closing, asked('kit', '09:00')))).toEqual(['call-news to iben'])
    expect(no(close(taken, closing, asked('coco', '09:00')))).toContain('not-on-list')
    expect(no(handOver(chart, { escalation: id, to: 'ravi' }, asked('coco')))).toContain('not-on-list')
  })
  test('every acknowledgement and hand-over has a number of its own', () => {
    const handed = chartAfter(held(), handOver(held(), { escalation: id, to: 'kit' }, asked('iben')))
    const again = chartAfter(handed, acknowledge(handed, id, asked('kit', '08:20')))
    const back = chartAfter(again, handOver(again, { escalation: id, to: 'ravi' }, asked('kit', '08:30')))
    expect(back.entries.map((entry) => entry.id).filter((one) => one.startsWith(`${id}/`))).toEqual([
      `${id}/call/1`,
      `${id}/acknowledged`,
      `${id}/handed-over/1`,
      `${id}/call/2`,
      `${id}/acknowledged/2`,
      `${id}/handed-over/2`,
      `${id}/call/3`,
    ])
  })
  test('a call that is not there, a name that nobody has, the athlete, and a clinic lead who may take it', () => {
    expect(no(acknowledge(opened(), 'escalation/x', asked('iben')))).toContain('unknown-call')
    expect(
      no(
        close(
          opened(),
          { escalation: 'escalation/x', disposition: 'seen in person', words: 'x' },
          asked('iben'),
        ),
      ),
    ).toContain('unknown-call')
    const to = (name: string) => no(handOver(held(), { escalation: id, to: name }, asked('iben')))
    expect(to('nobody')).toContain('unknown-person: Nobody of that name works here. [to]')
    expect(to('ada')).toContain('unknown-person')
    expect(to('sunniva')).toBe('done')
  })
})

describe('a sign that comes again', () => {
  test('the same: whoever has the call gets news, and the athlete is told again', () => {
    const again = raise(held(), { ...urgent, about: about('13') }, team, at('09:00'))
    expect(heardBy(again)).toEqual(['stop to ada', 'call-news to iben'])
    expect(kinds(again, 'escalation-updated')).toMatchObject([
      { id: `${id}/updated/1`, worse: false, because: [sore] },
    ])
    const nobodyYet = raise(
      chartAfter(opened(), overdue(opened(), team, at('09:00'))),
      { ...urgent, about: about('13') },
      team,
      at('09:01'),
    )
    expect(heardBy(nobodyYet)).toEqual(['stop to ada', 'call-news to ravi'])
  })
  test('a new one beside it, of the same weight, rings anew', () => {
    const both = raise(held(), { ...urgent, about: about('13'), because: [sore, calf] }, team, at('09:00'))
    expect(heardBy(both)).toEqual(['stop to ada', 'call to iben'])
    expect(kinds(both, 'escalation-updated')).toMatchObject([{ worse: true }])
  })
  test('the same sign as an emergency rings anew; as urgent in an emergency it does not', () => {
    const worse = raise(held(), { ...urgent, about: about('13'), tier: 'emergency' }, team, at('09:00'))
    expect(kinds(worse, 'escalation-updated')).toMatchObject([{ worse: true }])
    const emergency = raised(adasChart(), { ...urgent, tier: 'emergency' })
    const calmer = raise(emergency, { ...urgent, about: about('13') }, team, at('08:05'))
    expect(kinds(calmer, 'escalation-updated')).toMatchObject([{ worse: false }])
  })
  test('updates are numbered, and a hold that was lifted in between is put on again', () => {
    const once = raised(held(), { ...urgent, about: about('13') }, '09:00')
    const twice = raised(once, { ...urgent, about: about('14') }, '10:00')
    expect(twice.escalations[0]?.updates.map((one) => one.id)).toEqual([`${id}/updated/1`, `${id}/updated/2`])
    expect(twice.holds).toHaveLength(1)
    const free = { ...held(), holds: [] }
    expect(kinds(raise(free, { ...urgent, about: about('13') }, team, at('09:00')), 'hold')).toHaveLength(1)
  })
  test('body and confidence are two alarms; after the close a new one opens under a name of its own', () => {
    const two = raised(opened(), support, '08:05')
    expect(openEscalations(two).map((e) => e.concern)).toEqual(['body', 'support'])
    const closing = { escalation: id, disposition: 'seen in person' as const, words: 'Seen.' }
    const closed = chartAfter(held(), close(held(), closing, asked('iben')))
    const [fresh] = kinds(raise(closed, urgent, team, at('10:00')), 'escalation-opened')
    expect(fresh?.id).toBe(`${id}/again-2`)
  })
})

describe('when the list was silent to its end', () => {
  const silent = (alarm: Alarm, hours: readonly string[]) => {
    let chart = raised(adasChart(), alarm)
    let last = raise(adasChart(), alarm, team, at('08:00'))
    for (const hour of hours) {
      last = overdue(chart, team, at(hour))
      chart = chartAfter(chart, last)
    }
    return heardBy(last)
  }
  test('the athlete is told not to wait, each time the list begins again and not in between', () => {
    expect(silent(urgent, ['09:00'])).toEqual(['call to ravi'])
    expect(silent(urgent, ['09:00', '10:00'])).toEqual(['call to sunniva'])
    expect(silent(urgent, ['09:00', '10:00', '11:00'])).toEqual(['call to iben', 'stop to ada'])
    expect(silent(urgent, ['09:00', '10:00', '11:00', '12:00'])).toEqual(['call to ravi'])
  })
  test('in confidence the message is the one in confidence', () => {
    expect(heardBy(raise(adasChart(), support, team, at('08:00')))[0]).toBe('support to ada')
    const rings = silent(support, ['09:00'])
    expect(rings.every((one) => !one.startsWith('stop'))).toBe(true)
  })
})

describe('what was said in confidence is for the licensed person and the athlete', () => {
  const chart = raised(opened(), support, '08:05')
  const [body, secret] = openEscalations(chart)
  const finding = (reader: string, e = secret) => e && callReasons(e, chart, reader, team)[0]?.finding
  test('the reasons of the call', () => {
    expect([finding('iben'), finding(licensed), finding('ada')]).toEqual([
      'in-confidence',
      'self-harm',
      'self-harm',
    ])
    expect(finding('iben', body)).toBe('bone-pain-at-night')
  })
  test('and of the hold; a hold of the body is read by all', () => {
    const holds = chart.holds.map((hold) => holdReasons(hold, chart, 'iben', team)[0]?.finding)
    expect(holds).toEqual(['bone-pain-at-night', 'in-confidence'])
    const own = { ...chart.holds[0], about: 'hold/ada/1' } as (typeof chart.holds)[number]
    expect(holdReasons(own, chart, 'iben', team)).toEqual(own.because)
  })
  test('an audit of a call in confidence says no more', () => {
    const audit: Alarm = {
      concern: 'audit',
      about: secret?.id ?? '',
      tier: 'urgent',
      because: [{ ...sore, finding: 'breach-late' }],
    }
    const audited = raised(chart, audit, '09:10')
    const e =
      openEscalations(audited).find((one) => one.concern === 'audit') ??
      audited.escalations.find((one) => one.concern === 'audit')
    expect(e && callReasons(e, audited, 'iben', team)[0]?.finding).toBe('in-confidence')
    expect(e && callReasons(e, audited, licensed, team)[0]?.finding).toBe('breach-late')
    expect(kinds(raise(chart, audit, team, at('09:10')), 'hold')).toEqual([])
    expect(people.length).toBeGreaterThan(0)
  })
})
