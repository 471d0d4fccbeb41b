import { unzipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
  await (await fillMorning(clinic, 'mika', { note: 'I feel hopeless' })).submit()
  await clinic.settle()
})
afterAll(() => clinic.close())

const iben = () => clinic.as('iben')
const files = () => clinic.workspace.files.all()
const textOf = (name: string) =>
  files()
    .find((file) => file.name === name)
    ?.bytes?.toString('latin1') ?? ''
async function openForm() {
  await iben().command('/chart', 'mika')
  await clinic.settle()
  await iben().press({ modal: true }, 'open-export')
  await clinic.settle()
}
async function handOn(what: string, whom: string) {
  clinic.clock.pushBy({ seconds: 10 })
  await openForm()
  iben().fill('what', what)
  iben().fill('for', whom)
  const sent = await iben().submit()
  await clinic.settle()
  await iben().close(true)
  return sent
}

describe('a therapist hands a record on from the chart', () => {
  test('without a name for whom nothing is made; what was chosen stays', async () => {
    await openForm()
    iben().fill('what', 'fhir')
    expect((await iben().submit()).errors?.for).toBeDefined()
    iben().fill('for', '   ')
    expect((await iben().submit()).errors?.for).toBeDefined()
    expect(iben().modal()?.values.what).toBe('fhir')
    expect(files()).toEqual([])
    await iben().close(true)
  })

  test.each([
    ['pdf', 'progress-report.pdf', '%PDF-'],
    ['fhir', 'fhir.json', '"resourceType":"Bundle"'],
    ['csv', 'tables.zip', 'PK'],
    ['ics', 'record.ics', 'BEGIN:VCALENDAR'],
    ['all', 'record.zip', 'PK'],
  ])(
    'as %s: written down with for whom, then made, and given to the asker alone',
    async (what, name, begins) => {
      expect((await handOn(what, 'the surgeon')).errors).toBeUndefined()
      const chart = await clinic.bot.desk.charts.read('mika')
      expect(chart.entries.at(-1)).toMatchObject({
        kind: 'exported',
        author: 'iben',
        what,
        for: 'the surgeon',
      })
      expect(textOf(name)).toContain(begins)
      const direct = iben().messages().at(-1)?.channel
      expect(files().find((file) => file.name === name)?.channel).toBe(direct)
    },
  )

  test('a platform that takes no message just now costs the word of progress, not the file', async () => {
    clinic.workspace.faults.refuse({ method: 'chat.postMessage', error: 'ratelimited', times: 1 })
    const before = files().length
    expect((await handOn('ics', 'the club doctor')).errors).toBeUndefined()
    expect(files()).toHaveLength(before + 1)
    expect(iben().messages().at(-1)?.text).toBe('The file that you asked for is here.')
  })

  test('the tables come with their dictionary; nothing that was said in confidence is in any of them', () => {
    const tables = unzipSync(new Uint8Array(files().find((file) => file.name === 'tables.zip')?.bytes ?? []))
    expect(Object.keys(tables)).toContain('dictionary.csv')
    expect(Object.keys(tables)).toContain('check-ins.csv')
    const all = unzipSync(new Uint8Array(files().find((file) => file.name === 'record.zip')?.bytes ?? []))
    const words = [...Object.values(tables), ...Object.values(all)].map((part) =>
      Buffer.from(part).toString(),
    )
    expect(words.join('\n')).toContain('mika')
    expect(words.join('\n')).not.toContain('hopeless')
  })

  test('the messages about it name nobody in what a lock screen shows', () => {
    const texts = iben()
      .messages()
      .map(({ text }) => text)
    expect(texts).toContain('The file that you asked for is here.')
    expect(texts.join('\n')).not.toMatch(/Mika|progress report|surgeon/i)
    expect(JSON.stringify(iben().messages())).toContain(
      '*Mika Oddvar*: Progress report (PDF), for the surgeon',
    )
  })

  test('a file that the platform does not take is said in words, and the entry that it was asked for stays', async () => {
    clinic.workspace.faults.refuse({ method: 'files.getUploadURLExternal', error: 'fatal_error', times: 9 })
    await handOn('ics', 'the club')
    expect(JSON.stringify(iben().messages().at(-1))).toContain(
      'could not be made this time, and nothing left',
    )
    const chart = await clinic.bot.desk.charts.read('mika')
    expect(chart.entries.at(-1)).toMatchObject({ kind: 'exported', for: 'the club' })
  })
})
