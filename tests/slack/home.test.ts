import { afterAll, beforeAll, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const homeOf = async (id: string) => (await clinic.as(id).openHome())?.lines.join('\n') ?? ''

test('an athlete finds today, the ladder in words, the next check-in, the therapist and what the coach sees', async () => {
  const before = await homeOf('mika')
  expect(before).toContain('Nothing is prescribed yet today')
  expect(before).toContain('Rung 1 of')
  expect(before).toContain('Waiting for you now')
  expect(before).toContain('Iben Marlow. When away: Ravi Thornby.')
  expect(before).toContain('Mika Oddvar: waiting for the check-in')
  const mika = clinic.as('mika')
  await mika.press({ home: true }, 'open-check-in')
  await clinic.settle()
  expect(mika.modal()?.title).toBe('Check-in')
  await mika.close(true)
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
  expect(await homeOf('mika')).toContain('Warm-up')
})

test('an athlete gets the whole record as a file, in their own messages, and it is written down first', async () => {
  const mika = clinic.as('mika')
  await mika.openHome()
  await mika.press({ home: true }, 'my-record')
  await clinic.settle()
  const [file] = clinic.workspace.files.all()
  expect(file).toMatchObject({ name: 'my-record.zip' })
  const exported = (await clinic.bot.desk.charts.read('mika')).entries.findLast((e) => e.kind === 'exported')
  expect(exported).toMatchObject({ author: 'mika', what: 'all', for: 'the athlete' })
})

test('a coach finds the list and nothing medical', async () => {
  const words = await homeOf('noor')
  expect(words).toContain('Mika Oddvar: run')
  expect(words).not.toMatch(/pain|tibia|stress|swell|rung|diagnos/i)
})

test('a therapist finds the caseload and opens a chart from it', async () => {
  expect(await homeOf('iben')).toContain('Mika Oddvar')
  const iben = clinic.as('iben')
  await iben.press({ home: true }, 'open-chart')
  await clinic.settle()
  expect(iben.modal()?.title).toBe('Chart')
  await iben.close(true)
})

test('a clinic lead finds what is missing and the way to people and roles', async () => {
  expect(await homeOf('sunniva')).toContain('The clinic is set up')
  const lead = clinic.as('sunniva')
  await lead.press({ home: true }, 'open-clinic')
  await clinic.settle()
  expect(lead.modal()?.lines.join('\n')).toContain('Noor Castell')
  await lead.close(true)
})

test('somebody whom the clinic does not know is told whom to ask', async () => {
  const home = await clinic.workspace.as('U9NOBODY').openHome()
  expect(home?.lines.join('\n')).toContain('ask the clinic lead to add you')
})
