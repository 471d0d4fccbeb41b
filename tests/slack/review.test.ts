import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
  clinic.clock.pushTo('2026-03-22T11:00:00.000Z')
  await clinic.bot.round()
  await clinic.settle()
})
afterAll(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
const iben = () => clinic.as('iben')
async function openCaseload() {
  await iben().command('/chart')
  await clinic.settle()
  return iben().modal()?.lines.join('\n') ?? ''
}

describe('the weekly review', () => {
  test('a silent morning stands before it; once that is answered the caseload leads straight to the review', async () => {
    expect(await openCaseload()).toContain('no answer')
    await iben().close(true)
    await clinic.submit('mika', {
      kind: 'check-in',
      athlete: 'mika',
      day: '2026-03-22',
      answers: { worstPain: 1, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] } },
    })
    clinic.clock.pushTo('2026-03-23T05:00:00.000Z')
    await clinic.settle()
    expect(await openCaseload()).toContain('review due since 2026-03-22')
    await iben().press({ modal: true }, 'open-review', JSON.stringify({ athlete: 'mika' }))
    await clinic.settle()
    expect(iben().modal()?.title).toBe('Weekly review')
  })

  test('it says the week in words: what is missing as missing, what comes next with its reason, what lapses', () => {
    const words = iben().modal()?.lines.join('\n') ?? ''
    for (const part of ['Adherence', 'Load', 'Symptoms', 'Criteria still open', 'Next', 'Will lapse'])
      expect(words).toContain(part)
    expect(words).toContain('Check-ins: ')
    expect(words).toMatch(/missing: Walking free of pain/)
    expect(words).toContain('The rules propose: ')
    expect(words).toContain('Response curve: Too little to go on: 0 of at least 8 sessions.')
  })

  test('signed without a decision it stays open; signed with one the form for it follows', async () => {
    expect((await iben().submit()).errors?.next).toBeDefined()
    iben().fill('next', 'change the clearance')
    iben().fill('words', 'A silent week: talked on the phone')
    const sent = await iben().submit()
    expect(sent.modal?.title).toBe('Clearance')
    expect((await chart()).reviews).toMatchObject([
      { author: 'iben', day: '2026-03-23', next: 'change the clearance' },
    ])
    await iben().close(true)
    expect(await openCaseload()).not.toContain('review due')
    await iben().close(true)
  })

  test('from the chart it is reached as well, and going on leads back to the chart', async () => {
    await iben().command('/chart', 'mika')
    await clinic.settle()
    await iben().press({ modal: true }, 'open-review')
    await clinic.settle()
    expect(iben().modal()?.lines.join('\n')).toContain('Last review: 2026-03-23, Iben Marlow')
    iben().fill('next', 'go on')
    await iben().submit()
    await clinic.settle()
    expect(iben().modal()?.title).toBe('Chart')
    await iben().close(true)
  })

  test('a week that is not over yet is not signed', async () => {
    const signs = clinic.submit('iben', { kind: 'review', athlete: 'mika', day: '2026-04-01', next: 'go on' })
    await expect(signs).rejects.toThrow('not come yet')
  })
})
