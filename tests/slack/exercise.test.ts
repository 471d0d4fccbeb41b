import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
async function openForm(by = 'iben') {
  const person = clinic.as(by)
  await person.command('/chart', 'mika')
  await clinic.settle()
  await person.press({ modal: true }, 'open-exercise')
  await clinic.settle()
  return person
}

describe('a therapist logs exercises on behalf of an athlete', () => {
  test('an empty form and a row that is half filled in are refused at their fields, and what was typed stays', async () => {
    const iben = await openForm()
    expect((await iben.submit()).errors?.asWritten).toContain('Choose what was done')
    iben.fill('sets-1', '3')
    expect((await iben.submit()).errors?.['exercise-1']).toContain('Which exercise')
    iben.fill('exercise-1', 'squat-supported')
    iben.fill('asWritten', ['squat-supported'])
    expect((await iben.submit()).errors?.['exercise-1']).toContain('also in the list')
    expect(iben.modal()?.values['sets-1']).toBe('3')
    iben.fill('asWritten', ['dead-bug', 'heel-raise-supported'])
    iben.fill('bodyWeightPct-1', '55')
    iben.fill('pain-1', '2')
    iben.fill('other', 'Step down, 20 cm')
    expect((await iben.submit()).errors?.where).toContain('off it')
    iben.fill('where', 'off-treadmill')
    iben.fill('sets-other', '2')
    iben.fill('repeats-other', '8')
    iben.fill('balance-left-closed', '12.5')
    iben.fill('capSeconds', '30')
    expect((await iben.submit()).errors).toBeUndefined()
    await clinic.settle()
    const [done] = (await chart()).exercises
    expect(done).toMatchObject({ author: 'iben', day: '2026-03-16' })
    expect(done?.exercises).toEqual([
      { exercise: 'dead-bug', where: 'off-treadmill', sets: 2, repeats: 8, pain: 0 },
      {
        exercise: 'heel-raise-supported',
        where: 'in-treadmill',
        sets: 2,
        repeats: 10,
        bodyWeightPct: 60,
        pain: 0,
      },
      { exercise: 'squat-supported', where: 'in-treadmill', sets: 3, bodyWeightPct: 55, pain: 2 },
      { exercise: 'step-down-20-cm', where: 'off-treadmill', sets: 2, repeats: 8 },
    ])
    expect(done?.balance).toEqual([
      { side: 'left', eyes: 'closed', surface: 'floor', seconds: 12.5, capSeconds: 30 },
    ])
    expect(iben.modal()?.title).toBe('Chart')
    await iben.close(true)
  })

  test('a day that has not come is refused at the day', async () => {
    const iben = await openForm()
    iben.fill('day', '2026-03-20')
    iben.fill('asWritten', ['dead-bug'])
    expect((await iben.submit()).errors?.day).toContain('not come yet')
    await iben.close(true)
  })
})
