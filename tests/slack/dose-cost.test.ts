import { afterAll, beforeAll, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork

beforeAll(async () => {
  clinic = await openClinic(['mika'])
  expect((await (await fillMorning(clinic, 'mika')).submit()).closed).toBe(true)
  await clinic.settle()
})
afterAll(() => clinic.close())

test("the athlete's card says what today's run costs, as a range between the studies", () => {
  const card = clinic.as('mika').messages().at(-1)
  expect(card?.text, 'nothing of it on a lock screen').toBe('Your plan for today is here.')
  const words = JSON.stringify(card?.blocks)
  expect(words).toMatch(/Peak force \d\.\d\d to \d\.\d\d body weights, \d+ to \d+ % of full weight/)
  expect(words).toContain('As hard as')
  expect(words).toContain('span the published studies')
})

test('the therapist reads oxygen too, that less weight is not less shock, and what is extrapolated', async () => {
  const iben = clinic.as('iben')
  await iben.command('/chart', 'Mika Oddvar')
  await clinic.settle()
  const words = iben.modal()?.lines.join('\n') ?? ''
  expect(words).toContain("Today's run")
  expect(words).toMatch(/Oxygen [\d.]+ to [\d.]+ mL\/kg\/min/)
  expect(words).toContain('not less shock')
  expect(words).toContain('extrapolated:')
})
