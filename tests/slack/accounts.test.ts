import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

describe('only members of the workspace, whatever the journal says', () => {
  const cases = [
    { what: 'a guest', to: { guest: 'restricted' } },
    { what: 'a guest of one channel', to: { guest: 'ultra-restricted' } },
    { what: 'somebody who was deactivated', to: { deactivated: true } },
    { what: 'somebody of a connected workspace', to: { connectedTeam: 'T9OTHER' } },
  ] as const
  for (const { what, to } of cases)
    test(`${what} is refused in commands and on the Home`, async () => {
      clinic.workspace.people.change('U5IBEN', to)
      expect((await clinic.as('iben').command('/chart')).reply?.text).toContain('no guests')
      expect(clinic.as('iben').modal()).toBeUndefined()
      const home = (await clinic.as('iben').openHome())?.lines.join('\n') ?? ''
      expect(home).not.toContain('Mika')
    })

  test('somebody who becomes a guest is out within five minutes', async () => {
    await clinic.as('iben').command('/cover')
    clinic.workspace.people.change('U5IBEN', { guest: 'restricted' })
    const late = new Date(Date.parse(clinic.clock.now()) + 5 * 60_000 + 1000).toISOString()
    clinic.clock.pushTo(late)
    expect((await clinic.as('iben').command('/chart')).reply?.text).toContain('no guests')
  })

  test('somebody whom the lead has marked as gone is refused at once', async () => {
    const person = (await clinic.bot.desk.team()).roster.people.get('ravi')
    await clinic.submit('sunniva', { kind: 'person', person: { ...person, active: false } })
    expect((await clinic.as('ravi').command('/chart')).reply?.text).toContain('ask the clinic lead')
  })
})

describe('when the workspace cannot say who somebody is', () => {
  test('a chart stays shut to somebody who was not seen lately', async () => {
    clinic.workspace.faults.refuse({ method: 'users.info', error: 'internal_error', times: 9 })
    expect((await clinic.as('iben').command('/chart')).reply?.text).toContain('try again in a minute')
  })

  test('somebody seen today still works: an outage shuts nobody out', async () => {
    await clinic.as('iben').command('/cover')
    clinic.clock.pushTo('2026-03-16T07:30:00.000Z')
    clinic.workspace.faults.refuse({ method: 'users.info', error: 'internal_error', times: 9 })
    await clinic.as('iben').command('/chart')
    await clinic.settle()
    expect(clinic.as('iben').modal()?.title).toBe('Caseload')
  })

  test('a check-in is taken and a call acknowledged by whoever the lead has named', async () => {
    const mika = await fillMorning(clinic, 'mika', { 'signs-always': ['chest-pain'] })
    clinic.clock.pushTo('2026-03-16T06:40:00.000Z')
    clinic.workspace.faults.refuse({ method: 'users.info', error: 'internal_error', times: 9 })
    expect((await mika.submit()).errors).toBeUndefined()
    await clinic.settle()
    const call = clinic.as('iben').messages().at(-1)
    await clinic.as('iben').press({ channel: call?.channel ?? '', ts: call?.ts ?? '' }, 'acknowledge')
    await clinic.settle()
    const [escalation] = (await clinic.bot.desk.charts.read('mika')).escalations
    expect(escalation?.acknowledged?.author).toBe('iben')
  })
})
