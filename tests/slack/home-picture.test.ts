import { afterEach, beforeEach, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

async function runs() {
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
  const mika = clinic.as('mika')
  await mika.command('/session')
  await clinic.settle()
  for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) mika.fill(field, '0')
  expect((await mika.submit()).closed).toBe(true)
  await clinic.settle()
}
async function home() {
  await clinic.as('mika').openHome()
  await clinic.settle()
  return clinic.as('mika').home()
}
const published = () => clinic.workspace.calls.filter((call) => call.method === 'views.publish')
const files = () => clinic.workspace.files.all().map(({ id }) => id)
const pictureOf = (screen: Awaited<ReturnType<typeof home>>) =>
  screen?.blocks.find((block) => block.type === 'image')

test('before the first run there are words only, and nothing is drawn', async () => {
  const screen = await home()
  expect(screen?.lines.join('\n')).toContain('Rung 1 of')
  expect(pictureOf(screen)).toBeUndefined()
  expect(files()).toEqual([])
  expect(published()).toHaveLength(1)
})

test('the words stand first, the picture follows with the same in its alternative text, and is drawn once', async () => {
  await runs()
  const screen = await home()
  const [words, withPicture, ...more] = published()
  expect(more).toHaveLength(0)
  expect(JSON.stringify(words?.arguments)).not.toContain('slack_file')
  expect(JSON.stringify(words?.arguments)).toContain('Rung 1 of')
  expect(JSON.stringify(withPicture?.arguments)).toContain('slack_file')
  expect(screen?.lines.join('\n')).toContain('So far: rung 1 from 2026-03-16 (1 run).')
  expect(pictureOf(screen)).toMatchObject({ alt_text: expect.stringContaining('rung 1') })
  const drawn = files()
  expect(drawn).toHaveLength(1)
  await home()
  expect(published(), 'the same picture, at once').toHaveLength(3)
  expect(files()).toEqual(drawn)
})

test('a picture that fails leaves the words and says so; the next look tries again', async () => {
  await runs()
  clinic.workspace.faults.refuse({ method: 'files.getUploadURLExternal', error: 'internal_error', times: 1 })
  const screen = await home()
  expect(screen?.lines.join('\n')).toContain('Rung 1 of')
  expect(screen?.lines.join('\n')).toContain('could not be drawn this time')
  expect(pictureOf(screen)).toBeUndefined()
  expect(pictureOf(await home())).toBeDefined()
})

test('a platform that does not take the file in time costs the picture, not the Home', async () => {
  await runs()
  clinic.workspace.faults.fileProcessing(3600)
  for (let look = 0; look < 2; look += 1) {
    const screen = await home()
    expect(pictureOf(screen)).toBeUndefined()
    expect(screen?.lines.join('\n')).toContain('Your record')
    expect(screen?.lines.join('\n')).toContain('did not take it in time')
  }
  clinic.clock.pushBy({ minutes: 61 })
  expect(pictureOf(await home()), 'it is there when it is taken in').toBeDefined()
})
