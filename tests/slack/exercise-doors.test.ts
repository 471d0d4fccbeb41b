import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { enrolment, player } from '../../src/rehearsal/cast.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

const episode = {
  site: 'distal tibia',
  side: 'left',
  onsetDay: '2026-02-12',
  clearedUntil: '2026-04-12',
} as const

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
  await train('mika', ['noor', 'tove'])
})
afterEach(() => clinic.close())

/** Enrolled anew, with these coaches. */
async function train(id: string, coaches: readonly string[]) {
  const [enrolled] = enrolment(player(id), episode)
  await clinic.submit('iben', { ...enrolled, coaches })
  await clinic.settle()
}
const chart = (id = 'mika') => clinic.bot.desk.charts.read(id)

describe('the strength coach', () => {
  test('types /session, chooses the athlete and logs what was done in the treadmill and off it', async () => {
    const tove = clinic.as('tove')
    await tove.command('/session')
    await clinic.settle()
    expect(tove.modal()?.title).toBe('Log exercises')
    expect(tove.modal()?.lines.join('\n')).toContain('Mika Oddvar')
    expect(tove.modal()?.lines.join('\n')).not.toMatch(/tibia|pain|stress|rung|hold/i)
    await tove.press({ modal: true }, 'open-exercise')
    await clinic.settle()
    tove.fill('asWritten', ['dead-bug', 'heel-raise-supported'])
    tove.fill('balance-left-open', '28')
    tove.fill('balance-left-closed', '9.5')
    expect((await tove.submit()).errors).toBeUndefined()
    await clinic.settle()
    const [done] = (await chart()).exercises
    expect(done).toMatchObject({ author: 'tove', day: '2026-03-16' })
    expect(done?.exercises.map(({ where }) => where)).toEqual(['off-treadmill', 'in-treadmill'])
    expect(done?.balance).toHaveLength(2)
    expect(tove.modal()?.title, 'never the chart').toBe('Log exercises')
  })

  test('finds the same on Home, below the list of the day', async () => {
    const tove = clinic.as('tove')
    const home = (await tove.openHome())?.lines.join('\n') ?? ''
    expect(home).toContain('Who runs today')
    expect(home).toContain('Exercises')
    await tove.press({ home: true }, 'open-exercise')
    await clinic.settle()
    expect(tove.modal()?.title).toBe('Log exercises')
    expect(tove.modal()?.lines.join('\n')).not.toMatch(/tibia|stress|rung|hold\b/i)
  })

  test('cannot log for somebody who does not train with them, nor a run, nor open the chart', async () => {
    await train('mika', ['noor'])
    const tove = clinic.as('tove')
    await tove.command('/session')
    await clinic.settle()
    expect(tove.modal()?.lines.join('\n')).toContain('No athlete who trains with you')
    await expect(
      clinic.submit('tove', {
        kind: 'exercise-done',
        athlete: 'mika',
        day: '2026-03-16',
        exercises: [{ exercise: 'dead-bug', where: 'off-treadmill', sets: 1 }],
      }),
    ).rejects.toThrow('This is for')
    expect((await tove.command('/chart', 'mika')).reply?.text ?? '').not.toContain('tibia')
  })

  test('a coach who is not a strength coach finds no such door', async () => {
    const noor = clinic.as('noor')
    expect((await noor.command('/session')).reply?.text).toContain('The athlete logs the run')
    expect(JSON.stringify((await noor.openHome())?.blocks)).not.toContain('open-exercise')
  })
})

describe('the athlete', () => {
  test('logs exercises from the message of a day without running, and from Home', async () => {
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    const mika = clinic.as('mika')
    await mika.command('/session')
    await clinic.settle()
    for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) mika.fill(field, '0')
    expect((await mika.submit()).closed).toBe(true)
    clinic.clock.pushTo('2026-03-17T06:30:00.000Z')
    await clinic.bot.round()
    await clinic.settle()
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    const message = mika.messages().at(-1)
    expect(JSON.stringify(message?.blocks)).toContain('Today: no run')
    await mika.press(message ?? { home: true }, 'open-exercise')
    await clinic.settle()
    mika.fill('asWritten', ['dead-bug'])
    expect((await mika.submit()).errors).toBeUndefined()
    await clinic.settle()
    await mika.openHome()
    await mika.press({ home: true }, 'open-exercise')
    await clinic.settle()
    mika.fill('asWritten', ['dead-bug'])
    expect((await mika.submit()).errors).toBeUndefined()
    expect((await chart()).exercises.map(({ id }) => id)).toEqual([
      'exercise/mika/2026-03-17',
      'exercise/mika/2026-03-17/2',
    ])
  })

  test('an alarm in the note of exercises rings, is quoted in the right name, and takes the run of the day back', async () => {
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    const tove = clinic.as('tove')
    await tove.command('/session')
    await clinic.settle()
    await tove.press({ modal: true }, 'open-exercise')
    await clinic.settle()
    tove.fill('asWritten', ['dead-bug'])
    tove.fill('note', 'collapsed after the second set')
    expect((await tove.submit()).errors).toBeUndefined()
    await clinic.settle()
    const call = JSON.stringify(clinic.as('iben').messages().at(-1)?.blocks)
    expect(call).toContain('Emergency call: Mika Oddvar')
    expect(call).toContain('In the words of Tove Lindqvist:')
    expect((await chart()).prescriptions.at(-1)).toMatchObject({ what: 'rest', move: 'hold' })
  })

  test('a note that alarms nobody is shown to the therapist', async () => {
    const mika = clinic.as('mika')
    await mika.openHome()
    await mika.press({ home: true }, 'open-exercise')
    await clinic.settle()
    mika.fill('asWritten', ['dead-bug'])
    mika.fill('note', 'the ball was soft')
    await mika.submit()
    await clinic.settle()
    const note = JSON.stringify(clinic.as('iben').messages().at(-1)?.blocks)
    expect(note).toContain('the exercises of 2026-03-16')
    expect(note).toContain('the ball was soft')
    expect(note).not.toContain('please look at the chart')
  })
})
