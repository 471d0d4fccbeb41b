import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
const iben = () => clinic.as('iben')
const ask = (words: string, entry?: string) =>
  clinic.submit('mika', { kind: 'amendment-request', athlete: 'mika', words, ...(entry ? { entry } : {}) })
async function openChart() {
  await iben().command('/chart', 'mika')
  await clinic.settle()
  return iben().modal()?.lines.join('\n') ?? ''
}
async function openRequest(number: number) {
  await openChart()
  const request = `amendment-request/mika/${number}`
  await iben().press({ modal: true }, 'open-amend-request', JSON.stringify({ athlete: 'mika', request }))
  await clinic.settle()
}

describe('a therapist answers a request to correct the record', () => {
  test('the day by which the law asks for an answer stands on the chart, the caseload and the Home [cfr-164-526]', async () => {
    await ask('The side is wrong <!channel>', 'episode/mika/1')
    expect(await openChart()).toContain('answer by 2026-05-15')
    await iben().close(true)
    await iben().command('/chart')
    await clinic.settle()
    expect(iben().modal()?.lines.join('\n')).toContain('answer by 2026-05-15')
    await iben().close(true)
    expect((await iben().openHome())?.lines.join('\n')).toContain('answer by 2026-05-15')
  })

  test('the form repeats what was asked, about which entry, in plain text', async () => {
    await openRequest(1)
    const words = iben().modal()?.lines.join('\n') ?? ''
    expect(words).toContain('The side is wrong <!channel>')
    expect(words).toContain('2026-03-15 episode, Iben Marlow')
    expect(words).toContain('45 CFR 164.526')
  })

  test('more time is given once, in writing, and moves the day', async () => {
    iben().fill('outcome', 'extended')
    iben().fill('words', 'The surgeon is away')
    expect((await iben().submit()).errors).toBeUndefined()
    await clinic.settle()
    expect(iben().modal()?.lines.join('\n')).toContain('answer by 2026-06-14, put off once')
    await iben().close(true)
    await openRequest(1)
    expect(() => iben().fill('outcome', 'extended')).toThrow('not offered')
  })

  test('a refusal without its ground stands at the ground, and what was written stays', async () => {
    iben().fill('outcome', 'denied')
    iben().fill('words', 'The surgeon wrote the left side')
    expect((await iben().submit()).errors?.ground).toContain('needs its ground')
    expect(iben().modal()?.values.words).toBe('The surgeon wrote the left side')
    iben().fill('ground', 'accurate and complete')
    expect((await iben().submit()).errors).toBeUndefined()
    await clinic.settle()
    expect(iben().modal()?.lines.join('\n')).toContain('refused (accurate and complete) on 2026-03-16')
    await iben().close(true)
    expect(JSON.stringify(clinic.as('mika').messages())).toContain('The surgeon wrote the left side')
  })

  test('accepted: the entry is struck out and stays legible; a request without an entry offers no striking', async () => {
    await clinic.submit('iben', {
      kind: 'measure',
      athlete: 'mika',
      measure: 'pain',
      day: '2026-03-16',
      value: 3,
    })
    await ask('That was not me', 'measure/mika/1')
    await ask('My old sprain is missing')
    await openRequest(2)
    iben().fill('outcome', 'struck')
    iben().fill('words', 'Taken from the wrong sheet')
    await iben().submit()
    await clinic.settle()
    expect((await chart()).measures).toEqual([])
    expect((await chart()).ids.has('measure/mika/1')).toBe(true)
    await iben().close(true)
    await openRequest(3)
    expect(() => iben().fill('outcome', 'struck')).toThrow('not offered')
    iben().fill('outcome', 'appended')
    iben().fill('words', 'A sprain of the ankle in 2019, as told')
    await iben().submit()
    await clinic.settle()
    expect(iben().modal()?.lines.join('\n')).not.toContain('answer by')
    await iben().close(true)
  })
})
