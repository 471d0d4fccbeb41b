import { describe, expect, test } from 'vitest'
import { athlete, type Case } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const strike = (ada: ReturnType<typeof athlete>, strikes: string, time = '09:00') =>
  ada.byTherapist('2026-03-02', { kind: 'amendment', strikes, words: 'Typed for another day.' }, time)

describe('who is enrolled', () => {
  const enrolment = {
    kind: 'enrolment',
    timeZone: 'UTC',
    promptAt: '06:30',
    therapist: 'iben',
    coaches: [],
    consentToCoach: true,
    precautions: [],
  }
  const enrol = (over: object) => () => athlete(tibia).byTherapist('2026-03-02', { ...enrolment, ...over })
  test('has a treating therapist and a cover who work here', () => {
    expect(enrol({ athlete: 'nobody' })).toThrow('[athlete]')
    expect(enrol({ therapist: 'noor' })).toThrow('[therapist]')
    expect(enrol({ cover: 'noor' })).toThrow('[cover]')
    expect(enrol({ cover: 'ravi' })).not.toThrow()
  })
  test('with a precaution waits until a therapist lifts the hold, and is told; the same said twice holds once', () => {
    const ada = athlete(tibia)
    ada.byTherapist('2026-03-02', { ...enrolment, precautions: ['pregnancy'] }, '05:00')
    expect(ada.chart().holds).toMatchObject([
      { id: 'hold/ada/1', because: [{ finding: 'precaution', source: 'common-practice' }] },
    ])
    expect(ada.chart().holds[0]?.because[0]?.words).toContain('ask the treating clinician')
    expect(ada.notices()).toContain('told to ada')
    expect(ada.morning('2026-03-02')?.because[0]?.finding).toBe('hold')
    ada.byTherapist('2026-03-03', { ...enrolment, promptAt: '07:00', precautions: ['pregnancy'] }, '05:00')
    expect(ada.chart().holds).toHaveLength(1)
    ada.byTherapist(
      '2026-03-04',
      { kind: 'hold-lifted', hold: 'hold/ada/1', words: 'Asked and cleared.' },
      '05:00',
    )
    expect(ada.morning('2026-03-04')?.what).toBe('run')
    expect(() =>
      ada.byTherapist('2026-03-04', { kind: 'hold-lifted', hold: 'hold/ada/1', words: 'Again.' }),
    ).toThrow('no-hold: That hold is not in force.')
  })
})

describe('what stays in the record', () => {
  test('an entry that is not there, a call and an amendment are not struck out', () => {
    const ada = athlete(tibia)
    expect(() => strike(ada, 'check-in/ada/2026-02-02')).toThrow(
      'unknown-entry: There is no such entry. [strikes]',
    )
    ada.morning('2026-03-02', { signs: { always: ['chest-pain'], bone: [] } })
    const call = ada.chart().escalations[0]?.id ?? ''
    expect(call).toMatch(/^escalation\//)
    expect(() => strike(ada, call)).toThrow('not-strikable: A call is closed with a disposition')
    strike(ada, 'plan-signed/ada/1', '10:00')
    const amendment = ada.chart().entries.find(({ kind }) => kind === 'amendment')?.id ?? ''
    expect(() => strike(ada, amendment, '11:00')).toThrow('[strikes]')
  })
  test('a hold of an open call waits for the end of the call', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02', { signs: { always: ['chest-pain'], bone: [] } })
    const hold = ada.chart().holds[0]?.id ?? ''
    const lift = () => ada.byTherapist('2026-03-02', { kind: 'hold-lifted', hold, words: 'Seen.' }, '10:00')
    expect(lift).toThrow('call-open: Close the call first, with what came of it.')
    const escalation = ada.chart().escalations[0]?.id ?? ''
    ada.byTherapist('2026-03-02', { kind: 'call-acknowledged', escalation }, '08:00')
    ada.byTherapist(
      '2026-03-02',
      { kind: 'escalation-closed', escalation, disposition: 'seen in person', words: 'Seen' },
      '09:00',
    )
    expect(lift).not.toThrow()
    expect(ada.chart().holds).toEqual([])
  })
})
