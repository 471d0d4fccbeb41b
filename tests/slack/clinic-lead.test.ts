import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pino } from 'pino'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Bot, startBot } from '../../src/main.ts'
import { pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../../src/rehearsal/workspace.ts'
import { signingSecret } from './clinic.ts'

let workspace: Workspace
let bot: Bot
const clock = pushedClock('2026-03-16T09:00:00.000Z')
const dataFolder = mkdtempSync(join(tmpdir(), 'sanderling-first-'))
const settle = () => workspace.quiet(() => bot.idle())

beforeAll(async () => {
  workspace = await openWorkspace({ signingSecret, botToken: 'xoxb-test', clock })
  const zone = 'Europe/Lisbon'
  workspace.people.add({ id: 'U1LEAD', name: 'Sunniva Dray', timeZone: zone })
  workspace.people.add({ id: 'U2IBEN', name: 'Iben Marlow', timeZone: zone })
  workspace.people.add({ id: 'U3MIKA', name: 'Mika Oddvar', timeZone: zone })
  workspace.people.add({ id: 'U5LIV', name: 'Liv Aronsen', timeZone: zone })
  workspace.people.add({ id: 'U4GUEST', name: 'A Guest', timeZone: zone, guest: 'restricted' })
  workspace.channels.add({ id: 'C1COACHES', name: 'who-runs-today', members: ['U1LEAD', 'U2IBEN'] })
  bot = await startBot(
    { botToken: 'xoxb-test', signingSecret, port: 0, host: '127.0.0.1', dataFolder, sharedFolder: 'shared' },
    { clock, log: pino({ level: 'silent' }), apiUrl: workspace.apiUrl, wakeUp: false },
  )
  workspace.deliverTo({ http: `http://127.0.0.1:${bot.port}/slack/events` })
})
afterAll(async () => {
  await bot.stop()
  await workspace.close()
  rmSync(dataFolder, { recursive: true, force: true })
})

describe('whoever installs the bot is led through the first run', () => {
  test('everybody is told how it begins', async () => {
    expect((await workspace.as('U2IBEN').command('/chart')).reply?.text).toContain('/cover')
  })

  test('a guest cannot begin', async () => {
    expect((await workspace.as('U4GUEST').command('/cover')).reply?.text).toContain('no guest')
  })

  test('the first person becomes clinic lead and sees what is missing', async () => {
    const lead = workspace.as('U1LEAD')
    const iben = workspace.as('U2IBEN')
    await lead.command('/cover')
    await iben.command('/cover')
    await settle()
    expect(lead.modal()?.lines.join('\n')).toContain('becomes the clinic lead')
    lead.fill('id', 'sunniva')
    const sent = await lead.submit()
    const words = sent.modal?.lines.join('\n') ?? ''
    expect(words).toContain('no athlete is written to')
    expect(words).toContain('a therapist')
    expect(words).toContain("the coaches' channel")
    expect(words).not.toContain('last resort of the call list')
    const late = await iben.submit()
    expect(Object.values(late.errors ?? {}), 'the journal is not empty any more').toEqual([
      'This is for the clinic lead. Please ask them.',
    ])
    await iben.close(true)
  })

  test('people, roles and the channel are named; the screen under the form follows', async () => {
    const lead = workspace.as('U1LEAD')
    for (const [account, name, role, id] of [
      ['U2IBEN', 'Iben Marlow', 'therapist'],
      ['U3MIKA', 'Mika Oddvar', 'athlete'],
      ['U5LIV', 'Liv Aronsen', 'therapist', 'liv'],
    ] as const) {
      await lead.press({ modal: true }, 'open-person', '{}')
      await settle()
      lead.fill('account', account)
      lead.fill('name', name)
      lead.fill('roles', [role])
      if (id) lead.fill('id', id)
      expect((await lead.submit()).errors).toBeUndefined()
      await settle()
    }
    expect(lead.modal()?.lines.join('\n')).toContain('Mika Oddvar')
    await lead.press({ modal: true }, 'open-person', '{}')
    await settle()
    lead.fill('account', 'U4GUEST')
    lead.fill('name', 'A Guest')
    lead.fill('roles', ['coach'])
    expect((await lead.submit()).errors?.account).toContain('no guests')
    await lead.close()
  })

  test('until it is complete no athlete can be enrolled, and it says what is missing', async () => {
    const iben = workspace.as('U2IBEN')
    await iben.command('/enrol', 'Mika Oddvar')
    await settle()
    iben.fill('consent', 'yes')
    iben.fill('precautions', ['none'])
    expect((await iben.submit()).errors?.athlete).toContain("the coaches' channel")
    const lead = workspace.as('U1LEAD')
    await lead.press({ modal: true }, 'open-channel')
    await settle()
    lead.fill('channel', 'C1COACHES')
    await lead.submit()
    await settle()
    expect(lead.modal()?.lines.join('\n')).toContain('The clinic is set up')
    expect((await iben.submit()).modal?.title).toBe('Enrol: 2 of 3')
    await iben.close(true)
  })

  test('the lead reads figures and the trail: who, what kind, when, and nothing that was said', async () => {
    const lead = workspace.as('U1LEAD')
    await lead.press({ modal: true }, 'open-figures')
    await settle()
    expect(lead.modal()?.lines.join('\n')).toContain('Enrolled: 1')
    await lead.close()
    await lead.press({ modal: true }, 'open-audit')
    await settle()
    expect(lead.modal()?.lines.join('\n')).toContain('Iben Marlow: enrolment, Mika Oddvar')
    await lead.close(true)
  })

  test('a cover is agreed by whoever goes away and withdrawn by the lead', async () => {
    const iben = workspace.as('U2IBEN')
    await iben.command('/cover')
    await settle()
    const answer = iben.messages().at(-1)
    await iben.press({ channel: answer?.channel ?? '', ts: answer?.ts ?? '' }, 'open-cover')
    await settle()
    iben.fill('coveredBy', 'liv')
    iben.fill('from', '2026-04-01')
    iben.fill('until', '2026-04-03')
    expect((await iben.submit()).errors).toBeUndefined()
    const lead = workspace.as('U1LEAD')
    await lead.command('/cover')
    await settle()
    await lead.press({ modal: true }, 'open-cover')
    await settle()
    lead.fill('person', 'iben-marlow')
    lead.fill('coveredBy', 'iben-marlow')
    lead.fill('from', '2026-03-20')
    lead.fill('until', '2026-03-18')
    expect((await lead.submit()).errors?.coveredBy).toContain('Somebody else')
    lead.fill('coveredBy', 'liv')
    expect((await lead.submit()).errors?.until).toContain('before the first')
    lead.fill('until', '2026-03-27')
    expect((await lead.submit()).errors).toBeUndefined()
    await settle()
    expect(lead.modal()?.lines.join('\n')).toContain('Liv Aronsen stands in for Iben Marlow')
    for (const _ of [1, 2]) {
      const lines = (await bot.desk.team()).roster.covers
      await lead.press({ modal: true }, 'withdraw', JSON.stringify({ withdraws: lines[0]?.id }))
      await settle()
    }
    expect(lead.modal()?.lines.join('\n')).toContain('Nobody is away')
    await lead.close(true)
  })

  test('a therapist cannot name people', async () => {
    expect((await workspace.as('U3MIKA').command('/cover')).reply?.text).toContain('Please ask them')
    const home = await workspace.as('U2IBEN').openHome()
    expect(home?.lines.join('\n')).not.toContain('People, roles')
  })
})
