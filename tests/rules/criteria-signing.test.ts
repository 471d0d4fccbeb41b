import { describe, expect, test } from 'vitest'
import { athlete, type Case } from './life.ts'

const acl: Case = {
  tissue: 'joint',
  ladder: 'knee-eight-levels-treadmill',
  diagnosis: 'ACL reconstruction',
  episode: { surgeryDay: '2026-02-02', onsetDay: '2026-01-10' },
}

describe('a therapist signs; a set never passes by itself', () => {
  const ground = { kind: 'criteria-signed', set: 'lbpp-to-ground' }
  test('against lines that are not met only with a written reason, which stays in the record', () => {
    const ada = athlete(acl)
    expect(() => ada.byTherapist('2026-03-02', ground)).toThrow('thirty-minutes: missing')
    expect(() => ada.byTherapist('2026-03-02', { ...ground, words: '  ' })).toThrow('write the reason')
    const [signed] = ada.byTherapist('2026-03-02', { ...ground, words: 'No machine at the away camp.' })
    expect(signed).toMatchObject({
      set: 'lbpp-to-ground@1',
      against: true,
      words: 'No machine at the away camp.',
      lines: [{ line: 'thirty-minutes', status: 'missing' }],
    })
    expect(ada.chart().clearance?.id).toBe('clearance/ada/1')
    expect(() => ada.byTherapist('2026-03-02', { ...ground, words: '' })).toThrow('[words]')
  })
  test('when all is met it is signed without one, and changes no clearance', () => {
    const ada = athlete({ tissue: 'muscle', ladder: 'walk-run-six-phases' })
    ada.morning('2026-03-02')
    ada.run('2026-03-02', {
      bouts: [{ gait: 'run', bodyWeightPct: 100, speedMps: 2.5, inclinePct: 0, minutes: 31, repeats: 1 }],
    })
    ada.morning('2026-03-03')
    const [signed] = ada.byTherapist('2026-03-03', ground)
    expect(signed).toMatchObject({
      against: false,
      lines: [{ line: 'thirty-minutes', status: 'met', value: 31, day: '2026-03-02' }],
    })
    expect(ada.notices()).toEqual([])
  })
  test('the refusal names the lines that decide and are open, and no others', () => {
    const bone = athlete({
      tissue: 'bone',
      ladder: 'tibial-stress-reaction-lbpp',
      diagnosis: 'stress fracture',
      episode: { healingRisk: 'low' },
    })
    const measured = (measure: string, value: number) =>
      bone.byTherapist('2026-03-02', { kind: 'measure', measure, day: '2026-03-02', value })
    measured('bony-tenderness', 0)
    measured('walking-pain', 1)
    measured('contributing-factors', 1)
    const set = 'start-running-after-bone-stress-injury'
    expect(() => bone.byTherapist('2026-03-02', { kind: 'criteria-signed', set })).toThrow(
      'Not all criteria are met (walking: not met, tests: missing, pain-free-days: missing). To sign against them',
    )
    const [signed] = bone.byTherapist('2026-03-02', {
      kind: 'criteria-signed',
      set,
      words: 'Seen on the scan.',
    })
    if (signed?.kind !== 'criteria-signed') throw new Error('not signed')
    expect(signed.lines).toEqual([
      { line: 'tenderness', status: 'met', value: 0, day: '2026-03-02' },
      { line: 'walking', status: 'not met', value: 1, day: '2026-03-02' },
      { line: 'tests', status: 'missing' },
      { line: 'factors', status: 'met', value: 1, day: '2026-03-02' },
      { line: 'pain-free-days', status: 'missing' },
      { line: 'walk', status: 'missing' },
      { line: 'hops', status: 'missing' },
    ])
    expect(Object.keys(signed.lines[2] ?? {})).toEqual(['line', 'status'])
  })
  test('not before an episode is written', () => {
    const ada = athlete(acl)
    ada.byTherapist('2026-03-02', { kind: 'amendment', strikes: 'episode/ada/1', words: 'Wrong side.' })
    expect(() => ada.byTherapist('2026-03-02', ground)).toThrow('Write the episode first. [athlete]')
    expect(() =>
      ada.byTherapist('2026-03-02', { kind: 'clearance', state: 'ground running', until: '2026-04-30' }),
    ).toThrow('Write the episode first. [athlete]')
    expect(() =>
      ada.byTherapist('2026-03-02', {
        kind: 'plan-signed',
        ladder: 'acl-nine-phases',
        startRung: 1,
        days: ['mon'],
        ceiling: { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 },
      }),
    ).toThrow('Write the episode first. [athlete]')
  })
  test('not a set that is not there, or is for another tissue', () => {
    expect(() => athlete(acl).byTherapist('2026-03-02', { ...ground, set: 'no-such' })).toThrow(
      'There is no criteria set no-such.',
    )
    const bone = athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp' })
    expect(() =>
      bone.byTherapist('2026-03-02', { ...ground, set: 'return-to-sport-after-acl-reconstruction' }),
    ).toThrow('This set is for joint.')
  })
})
