import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
})
afterAll(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
const iben = () => clinic.as('iben')
const fill = (answers: Readonly<Record<string, string | readonly string[]>>) => {
  for (const [field, answer] of Object.entries(answers)) iben().fill(field, answer)
}
async function open(button: string) {
  await iben().command('/chart', 'mika')
  await clinic.settle()
  await iben().press({ modal: true }, button)
  await clinic.settle()
}

describe('a therapist logs a run on behalf of an athlete', () => {
  test('the form is filled in from what was prescribed, bout by bout', async () => {
    await open('open-staff-session')
    const dose = (await chart()).prescriptions.at(-1)?.dose
    expect(iben().modal()?.lines.join('\n')).toContain('Filled in from what was prescribed for 2026-03-16')
    expect(iben().modal()?.values).toMatchObject({
      day: '2026-03-16',
      'gait-1': 'run',
      'bodyWeightPct-1': String(dose?.bouts[0]?.bodyWeightPct),
      'repeats-1': String(dose?.bouts[0]?.repeats.low),
      'inclinePct-1': '0',
    })
  })

  test('a bout, a change or a limp that is written in part is refused at what it lacks, and what was typed stays', async () => {
    fill({ painBefore: '0', painDuring: '0', painAfter: '0', rpe: '3', 'minutes-2': '3' })
    expect((await iben().submit()).errors).toEqual({ 'gait-2': 'Bout 2 lacks this.' })
    fill({
      'gait-2': 'walk',
      'bodyWeightPct-2': '60',
      'speedKmh-2': '5',
      'inclinePct-2': '1',
      'repeats-2': '1',
    })
    fill({ toBodyWeightPct: '55' })
    expect((await iben().submit()).errors?.atMinute).toContain('which minute')
    fill({ atMinute: '4' })
    expect((await iben().submit()).errors?.why).toContain('Why')
    fill({ why: 'pain', changePain: '1', looked: 'limp' })
    expect((await iben().submit()).errors?.side).toContain('which side')
    expect(iben().modal()?.values['minutes-2']).toBe('3')
  })

  test('what was set and weighed, the gait with its film, the change, exercises and balance stand in the chart', async () => {
    fill({
      side: 'left',
      gaitNote: 'Short step on the left',
      filmKeptAt: 'Camera room, shelf 3',
      'measuredPct-1': '63.5',
      asWritten: ['dead-bug'],
      'balance-right-open': '30',
      surface: 'unstable',
    })
    expect((await iben().submit()).errors).toBeUndefined()
    await clinic.settle()
    const [session] = (await chart()).sessions
    expect(session).toMatchObject({
      author: 'iben',
      day: '2026-03-16',
      about: (await chart()).prescriptions.at(-1)?.id,
      bouts: [
        { gait: 'run', measuredBodyWeightPct: 63.5 },
        { gait: 'walk', bodyWeightPct: 60, inclinePct: 1, minutes: 3 },
      ],
      gait: {
        looked: 'limp',
        side: 'left',
        note: 'Short step on the left',
        filmKeptAt: 'Camera room, shelf 3',
      },
      changes: [{ atMinute: 4, why: 'pain', pain: 1, bodyWeightPct: 55 }],
      exercises: [{ exercise: 'dead-bug' }],
      balance: [{ side: 'right', eyes: 'open', surface: 'unstable', seconds: 30 }],
    })
    expect(iben().modal()?.title).toBe('Chart')
    await iben().close(true)
    expect(JSON.stringify(iben().messages())).toContain('a limp on the left side')
  })

  test('a second log of the same day is refused, and the words say why', async () => {
    await open('open-staff-session')
    fill({
      'gait-1': 'run',
      'bodyWeightPct-1': '60',
      'speedKmh-1': '8',
      'inclinePct-1': '0',
      'repeats-1': '1',
      'minutes-1': '5',
      painBefore: '0',
      painDuring: '0',
      painAfter: '0',
      rpe: '3',
    })
    expect(Object.values((await iben().submit()).errors ?? {}).join()).toContain('logged already')
    await iben().close(true)
  })
})

describe('a run that was not run', () => {
  test('is written down with its day and why, once', async () => {
    await open('open-skipped')
    fill({ day: '2026-03-16' })
    expect((await iben().submit()).errors?.day).toContain('logged already')
    fill({ day: '2026-03-15', words: 'Travelled' })
    expect((await iben().submit()).errors).toBeUndefined()
    await clinic.settle()
    expect((await chart()).skipped.has('2026-03-15')).toBe(true)
    await iben().close(true)
  })
})
