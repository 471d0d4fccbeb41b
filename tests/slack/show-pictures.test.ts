import { afterAll, beforeAll, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork

beforeAll(async () => {
  clinic = await openClinic(['mika'])
  expect((await (await fillMorning(clinic, 'mika')).submit()).closed).toBe(true)
  await clinic.settle()
})
afterAll(() => clinic.close())

test('the therapist asks for the pictures and gets them as private files, each with its words', async () => {
  const shown = await pressed()
  const pictures = shown.filter((block) => block.type === 'image')
  expect(pictures.length).toBeGreaterThan(1)
  for (const picture of pictures)
    expect(picture).toMatchObject({
      slack_file: { id: expect.any(String) },
      alt_text: expect.stringMatching(/\w+/),
    })
})

test('asked again, the superseded files are deleted', async () => {
  const before = new Set(clinic.workspace.files.all().map((file) => file.id))
  await pressed()
  const after = clinic.workspace.files.all().filter((file) => before.has(file.id))
  expect(clinic.workspace.calls.filter((call) => call.method === 'files.delete')).toHaveLength(
    before.size - after.length,
  )
  expect(after).toEqual([])
})

test('a platform that takes no files costs the pictures, not the message', async () => {
  clinic.workspace.faults.refuse({ method: 'files.getUploadURLExternal', error: 'internal_error', times: 20 })
  const shown = await pressed()
  expect(shown.some((block) => block.type === 'image')).toBe(false)
  expect(JSON.stringify(shown)).toContain('could not be drawn')
})

async function pressed() {
  const iben = clinic.as('iben')
  clinic.clock.pushBy({ minutes: 1 })
  await iben.command('/chart', 'Mika Oddvar')
  await clinic.settle()
  await iben.press({ modal: true }, 'show-pictures')
  await clinic.settle()
  await iben.close(true)
  const message = iben.messages().findLast((one) => one.text === 'The pictures that you asked for.')
  return message?.blocks ?? []
}
