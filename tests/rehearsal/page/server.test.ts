import { request } from 'node:http'
import { pino } from 'pino'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openFirstMorning, type Rehearsal } from '../../../src/commands/open-rehearsal.ts'
import { openPage } from '../../../src/rehearsal/page/server.ts'
import { takeTurns } from '../../../src/rehearsal/turns.ts'
import { openVisitor, type Visitor } from './visitor.ts'

let rehearsal: Rehearsal
let visitor: Visitor

beforeAll(async () => {
  rehearsal = await openFirstMorning({ say: () => {}, log: pino({ level: 'silent' }) })
  visitor = await openVisitor(rehearsal.stage)
})
afterAll(async () => {
  await visitor.page.close()
  await rehearsal.close()
})

describe('whoever reaches the page can act as anybody, so it is for this machine only', () => {
  for (const host of ['0.0.0.0', '192.168.1.5', 'example.org', '::'])
    test(`it refuses to listen on ${host}`, async () => {
      await expect(openPage(takeTurns(rehearsal.stage), { host })).rejects.toThrow('loopback only')
    })

  test('it refuses a request that names another host', async () => {
    const { port } = new URL(visitor.page.url)
    const status = await new Promise((resolve) => {
      const asked = request({
        port,
        host: '127.0.0.1',
        path: '/as/mika',
        headers: { host: `evil.example:${port}` },
      })
      asked.on('response', (response) => resolve(response.resume().statusCode)).end()
    })
    expect(status).toBe(403)
  })

  test('it refuses what another page posts, and nothing happens', async () => {
    const before = rehearsal.stage.clock.now()
    const answer = await visitor.post('mika/clock', [['to', '+1h']], { origin: 'http://evil.example' })
    expect(answer.status).toBe(403)
    expect(rehearsal.stage.clock.now()).toBe(before)
  })

  test('it loads nothing from elsewhere and runs nothing that is written into it', async () => {
    const { headers } = await fetch(`${visitor.page.url}as/mika`)
    const policy = headers.get('content-security-policy')
    expect(policy).toContain("default-src 'none'")
    expect(policy).not.toContain('unsafe-inline')
  })
})

describe('an address that leads nowhere is answered in words', () => {
  for (const path of ['as/nobody', 'elsewhere', 'picture/F0', 'as/mika/press/more'])
    test(path, async () => {
      const answer = await fetch(visitor.page.url + path)
      expect(answer.status).toBe(404)
      expect(await answer.text()).toContain('<a href="/">Begin</a>')
    })

  test('a deed that there is none', async () => {
    expect((await visitor.post('mika/constructor', [])).status).toBe(404)
  })

  test('too much to be a form', async () => {
    expect(
      (await visitor.post('mika/write', [['text', 'x'.repeat(300_000)]], { connection: 'close' })).status,
    ).toBe(413)
  })
})

describe('wrong input is said on the page, and nothing else happens', () => {
  const cases = [
    { deed: 'write', fields: [['text', '  ']], says: 'Type a command' },
    {
      deed: 'press',
      fields: [
        ['ts', '1.2'],
        ['channel', 'D1MIKA'],
      ],
      says: 'That is not there any more.',
    },
    {
      deed: 'press',
      fields: [
        ['ts', '1.2'],
        ['channel', 'C1COACHES'],
      ],
      says: 'is not in C1COACHES',
    },
    {
      deed: 'form',
      fields: [
        ['view', 'V1'],
        ['does', 'submit'],
      ],
      says: 'That form is not open any more.',
    },
    { deed: 'answer', fields: [['answer', 'yes']], says: 'Nothing is being asked any more.' },
    { deed: 'clock', fields: [['to', 'yesterday']], says: 'The clock can be pushed: next' },
  ] as const
  for (const { deed, fields, says } of cases)
    test(`${deed} ${fields.map((pair) => pair.join('=')).join(' ')}`, async () => {
      expect(await visitor.does('mika', deed, fields)).toContain(says)
    })
})

test('what people write is shown as they wrote it, and never as a part of the page', async () => {
  const nasty = '<img src=x onerror=alert(1)> & "quoted" \'too\' *bold*<b>'
  const page = await visitor.does('mika', 'write', [['text', nasty]])
  expect(page).not.toContain('<img src=x')
  expect(page).toContain('&lt;img src=x onerror=alert(1)&gt; &amp; &quot;quoted&quot;')
})

test('a check-in without a script: errors stand at the question and keep what was typed', async () => {
  const page = await visitor.look('mika')
  const form = await visitor.does('mika', 'press', visitor.formWith(page, 'Check in'))
  const view = visitor.formWith(form, 'Leave')
  const some = [...view, ['f-worstPain', '0'], ['f-note', 'slept <well>'], ['does', 'submit']] as const
  const refused = await visitor.does('mika', 'form', some)
  expect(refused).toContain('Not sent.')
  expect(refused).toMatch(/id="f-swelling-wrong">Please complete this required field/)
  expect(refused).toMatch(/<option value="0" selected/)
  expect(refused).toContain('slept &lt;well&gt;</textarea>')
  const rest = [
    ['f-morningPain', '0'],
    ['f-swelling', 'no'],
    ['f-signs-always', 'none'],
    ['f-signs-bone', 'none'],
  ] as const
  const sent = await visitor.does('mika', 'form', [...some, ...rest])
  expect(sent).toContain('Sent: Check-in.')
  expect(sent).toContain('Today: run')
  expect(sent).not.toContain('<dialog')
})

test('a coach sees the channel and no answers; an athlete does not see the channel', async () => {
  const coach = await visitor.look('noor')
  expect(coach).toContain('Channel who-runs-today')
  expect(coach).not.toMatch(/pain|tibia|slept/i)
  expect(await visitor.look('mika')).not.toContain('Channel who-runs-today')
})

test('an outage stands on the page until it is ended', async () => {
  expect(await visitor.does('joran', 'outage', [['on', 'yes']])).toContain('The chat platform fails.')
  expect(await visitor.does('joran', 'outage', [['on', 'no']])).not.toContain(
    'The chat platform fails.</strong>',
  )
})
