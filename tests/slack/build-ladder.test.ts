import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
const iben = () => clinic.as('iben')
const shown = () => iben().modal()?.lines.join('\n') ?? ''
const press = async (name: string) => {
  await iben().press({ modal: true }, name)
  await clinic.settle()
}
const fill = (answers: Readonly<Record<string, string | readonly string[]>>) => {
  for (const [field, answer] of Object.entries(answers)) iben().fill(field, answer)
}

describe('a therapist builds a ladder in chat', () => {
  test('what cannot be built is refused at its field, and what was typed stays', async () => {
    await iben().command('/chart', 'mika')
    await clinic.settle()
    await press('open-builder')
    expect(iben().modal()?.title).toBe('Build a ladder')
    fill({ bodyWeightPct: '50', speedKmh: '8', minutes: '10', goalSpeedKmh: '7', goalMinutes: '30' })
    expect((await iben().submit()).errors?.goalSpeedKmh).toContain('not be shorter or slower')
    fill({ goalSpeedKmh: '9', loadRisePct: '1' })
    expect((await iben().submit()).errors?.loadRisePct).toContain('allow more')
    expect(iben().modal()?.values).toMatchObject({ bodyWeightPct: '50', goalMinutes: '30', loadRisePct: '1' })
  })

  test('the draft stands rung by rung: what changed, what it costs, and who says so', async () => {
    fill({ loadRisePct: '20' })
    const sent = await iben().submit()
    expect(sent.modal?.title).toBe('Draft of a ladder')
    expect(shown()).toContain('1. start: run 2 times 5 min at 50 %, 8 km/h.')
    expect(shown()).toMatch(
      /2\. 10 to 11\.5 min: run 3 times 3\.83 min at 50 %.*load 2690 BW \(\+15 %\), 5\.0 to 5\.8 MET/,
    )
    expect(shown()).toContain('from the treadmill to the ground')
    expect(shown()).toContain('Less weight is not less shock at the shin [moran-2017]')
    expect((await chart()).plan?.ladder.id).toBe('tibial-stress-reaction-lbpp')
  })

  test('the draft can be changed: the form comes back filled in', async () => {
    await press('open-builder')
    expect(iben().modal()?.title).toBe('Build a ladder')
    expect(iben().modal()?.values).toMatchObject({ bodyWeightPct: '50', speedKmh: '8', goalSpeedKmh: '9' })
    fill({ goalMinutes: '25' })
    await iben().submit()
    expect(shown()).toContain('Built: 50 % to 25 min on the ground')
  })

  test('signed with days, start and a higher ceiling it asks first, then it is the plan', async () => {
    fill({
      startRung: '2',
      days: ['mon', 'wed', 'fri'],
      bodyWeightPct: '100',
      speedKmh: '13.5',
      runMinutes: '25',
    })
    const asked = await iben().submit()
    expect(asked.modal?.title).toBe('Please confirm')
    expect(asked.modal?.lines.join('\n')).toContain('speed rises from 13 to 13.5 km/h')
    fill({ confirm: ['yes'] })
    expect((await iben().submit()).errors).toBeUndefined()
    await clinic.settle()
    const { plan } = await chart()
    expect(plan).toMatchObject({
      author: 'iben',
      startRung: 2,
      days: ['mon', 'wed', 'fri'],
      ladder: { id: 'built-for-mika', version: 1, tissues: ['bone'] },
      builtFrom: { goal: { minutes: 25, on: 'ground' } },
    })
    expect(plan?.ladder.rungs.length).toBeGreaterThan(10)
    expect(JSON.stringify(clinic.as('mika').messages())).toContain('Built: 50 % to 25 min on the ground')
  })

  test('a rung that the built ladder does not have is refused at the rung', async () => {
    await iben().command('/chart', 'mika')
    await clinic.settle()
    await press('open-plan')
    await press('open-builder')
    fill({ bodyWeightPct: '90', speedKmh: '8', minutes: '10', goalSpeedKmh: '8', goalMinutes: '10' })
    await iben().submit()
    fill({ startRung: '40', bodyWeightPct: '90', speedKmh: '8', runMinutes: '10' })
    expect((await iben().submit()).errors?.startRung).toMatch(/at most \d+/)
    await iben().close(true)
  })
})

describe('the rules of pain in the form of a plan', () => {
  const openPlan = async () => {
    await clinic.submit('iben', {
      kind: 'episode',
      athlete: 'mika',
      diagnosis: 'patellar tendinopathy',
      tissue: 'tendon',
      site: 'patellar tendon',
      side: 'left',
      onsetDay: '2026-02-12',
    })
    await iben().command('/chart', 'mika')
    await clinic.settle()
    await press('open-plan')
  }

  test('stand with their default, source and label, set to the stricter', async () => {
    await openPlan()
    expect(iben().modal()?.values['settings.hoursWatched']).toBe('48')
    expect(shown()).toContain('Default 0 [silbernagel-2007, read-2nd]')
    expect(shown()).toContain('24 | 48 (default)')
  })

  test('a looser one is asked about before it is signed, a stricter one is signed with it', async () => {
    fill({
      ladder: 'tendon-pain-monitored@1',
      bodyWeightPct: '70',
      speedKmh: '10',
      runMinutes: '20',
      'settings.morningRiseMost': '2',
      'settings.painDuringMost': '3',
    })
    const asked = await iben().submit()
    const words = asked.modal?.lines.join('\n') ?? ''
    expect(words).toContain(
      'how much worse than before the run a morning may be: 2, where 0 is [silbernagel-2007, read-2nd]',
    )
    expect(words).not.toContain('most pain accepted in the run')
    fill({ confirm: ['yes'] })
    await iben().submit()
    await clinic.settle()
    expect((await chart()).plan?.settings).toMatchObject({
      morningRiseMost: 2,
      painDuringMost: 3,
      hoursWatched: 48,
    })
  })

  test('a value that the tissue does not allow is not offered, and refused when it is sent all the same', async () => {
    await openPlan()
    expect(() => fill({ 'settings.painDuringMost': '6' })).toThrow('not offered')
    await iben().close(true)
  })
})
