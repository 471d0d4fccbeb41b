import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { receiveForClinic } from '../../src/desk/intake.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const lead = () => clinic.as('sunniva')
const shown = () => lead().modal()?.lines.join('\n') ?? ''
async function openSettings() {
  await lead().command('/cover')
  await clinic.settle()
  await lead().press({ modal: true }, 'open-settings')
  await clinic.settle()
}

describe('a clinic lead tightens settings from chat', () => {
  test('each stands as it is now, with what the file has', async () => {
    await openSettings()
    expect(lead().modal()?.values).toMatchObject({
      emergencyAckMinutes: '10',
      remindMinutes: '90',
      surgeryWeeks: '8',
      quietFrom: '21:00',
    })
    expect(shown()).toContain('At most 10, as in clinic.json.')
  })

  test('a loosening is refused at its field, and what was typed stays', async () => {
    lead().fill('remindMinutes', '15')
    lead().fill('urgentAckMinutes', '61')
    expect((await lead().submit()).errors).toEqual({
      urgentAckMinutes: 'At most 60, as in clinic.json: it may be tightened here, never loosened.',
    })
    lead().fill('urgentAckMinutes', '30')
    lead().fill('surgeryWeeks', '6')
    expect((await lead().submit()).errors?.surgeryWeeks).toContain('At least 8')
    lead().fill('surgeryWeeks', '8')
    lead().fill('quietUntil', '07:00')
    expect((await lead().submit()).errors?.quietUntil).toContain('never longer')
    lead().fill('quietUntil', '06:00')
    lead().fill('cutOffMinutes', '10')
    expect((await lead().submit()).errors?.cutOffMinutes).toContain('After the reminder')
    lead().fill('cutOffMinutes', '120')
    expect(lead().modal()?.values.remindMinutes).toBe('15')
    expect((await clinic.bot.desk.team()).clinic.checkIn.remindAfterMinutes).toBe(90)
  })

  test('a tightening is kept in the journal with who and when, and stands on the screen at once', async () => {
    expect((await lead().submit()).errors).toBeUndefined()
    await clinic.settle()
    expect(shown()).toContain('reminded of once, 15 min after the prompt')
    expect(shown()).toContain('urgent ones after 30 min')
    const journal = await clinic.bot.desk.store.read('clinic', 0)
    expect(journal.at(-1)).toMatchObject({
      kind: 'settings',
      author: 'sunniva',
      settings: { remindMinutes: 15, urgentAckMinutes: 30, cutOffMinutes: 120 },
    })
    await lead().close(true)
  })

  test('a reminder that was noted for later comes at the new time', async () => {
    const reminders = async () => (await clinic.bot.desk.charts.read('mika')).reminders.size
    await clinic.bot.round()
    clinic.clock.pushTo('2026-03-16T06:44:00.000Z')
    await clinic.bot.round()
    expect(await reminders()).toBe(0)
    clinic.clock.pushTo('2026-03-16T06:45:00.000Z')
    await clinic.bot.round()
    expect(await reminders()).toBe(1)
    const journal = await clinic.bot.desk.store.read('clinic', 0)
    expect(journal.filter((entry) => String(entry.id).endsWith('/in-force')).length).toBe(1)
  })

  test('an urgent call goes on after the tightened time', async () => {
    const over = { worstPain: '2', morningPain: '2', 'signs-bone': ['bone-pain-at-night', 'sore-spot'] }
    await (await fillMorning(clinic, 'mika', over)).submit()
    await clinic.settle()
    const [call] = (await clinic.bot.desk.charts.read('mika')).escalations
    expect(call?.tier).toBe('urgent')
    const made = (await clinic.bot.desk.charts.read('mika')).entries.find((e) => e.kind === 'call-made')
    expect(made).toMatchObject({ ackBy: '2026-03-16T07:15:00.000Z' })
  })

  test('back to what the file has is allowed, and leaves nothing chosen', async () => {
    await openSettings()
    for (const [field, value] of [
      ['remindMinutes', '90'],
      ['urgentAckMinutes', '60'],
      ['cutOffMinutes', '180'],
    ] as const)
      lead().fill(field, value)
    expect((await lead().submit()).errors).toBeUndefined()
    await clinic.settle()
    expect((await clinic.bot.desk.team()).roster.settings).toEqual({})
    await lead().close(true)
  })

  test('the trail shows who did it', async () => {
    await lead().command('/cover')
    await clinic.settle()
    await lead().press({ modal: true }, 'open-audit')
    await clinic.settle()
    expect(shown()).toContain('Sunniva Dray: settings, the clinic')
    await lead().close(true)
  })

  test('a therapist cannot, and is told whom to ask', async () => {
    const iben = { id: 'iben', roles: ['therapist' as const] }
    const handed = { kind: 'settings', settings: { remindMinutes: 20 } }
    expect(await receiveForClinic(clinic.bot.desk, iben, handed)).toMatchObject({
      refused: 'not-yours',
      words: expect.stringContaining('the clinic lead'),
    })
  })
})
