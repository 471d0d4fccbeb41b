import { WebClient } from '@slack/web-api'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { accountsOf } from '../../src/slack/accounts.ts'
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

describe('a morning in which many come at once', () => {
  const crowd = 300
  const guest = { guest: 'restricted' } as const

  test('is asked about with a few single questions and one list, and a guest among them stays out', async () => {
    const { people, calls, faults } = clinic.workspace
    for (let i = 0; i < crowd; i += 1)
      people.add({ id: `U8CROWD${i}`, name: `Runner ${i}`, timeZone: 'UTC', ...(i === 299 ? guest : {}) })
    const accounts = accountsOf(
      new WebClient('xoxb-test', { slackApiUrl: clinic.workspace.apiUrl }),
      async () => {
        return clinic.workspace.identity.team.id
      },
    )
    const before = calls.length
    const now = clinic.clock.now()
    const seen = await Promise.all(Array.from({ length: crowd }, (_, i) => accounts.look(`U8CROWD${i}`, now)))
    expect(seen.map((one) => one?.standing)).toEqual(
      Array.from({ length: crowd }, (_, i) => (i === 299 ? 'guest' : 'member')),
    )
    const asked = calls.slice(before).map(({ method }) => method)
    expect(asked.filter((method) => method === 'users.info').length).toBeLessThanOrEqual(20)
    expect(asked.filter((method) => method === 'users.list')).toHaveLength(1)
    expect(faults.counts.limited).toBe(0)
  })

  test('leaves room for a therapist, who is known at once', async () => {
    const now = clinic.clock.now()
    const accounts = accountsOf(
      new WebClient('xoxb-test', { slackApiUrl: clinic.workspace.apiUrl }),
      async () => {
        return clinic.workspace.identity.team.id
      },
    )
    await Promise.all(Array.from({ length: crowd }, (_, i) => accounts.look(`U8NOBODY${i}`, now)))
    expect((await accounts.look('U5IBEN', now))?.standing).toBe('member')
  })
})
