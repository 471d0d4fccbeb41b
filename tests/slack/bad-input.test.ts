import { createHmac } from 'node:crypto'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic, signingSecret } from './clinic.ts'

let clinic: ClinicAtWork
let lengthBefore = 0

beforeAll(async () => {
  clinic = await openClinic()
})
afterAll(() => clinic.close())
beforeEach(async () => {
  lengthBefore = await entriesOf('mika')
})
afterEach(async () => {
  expect(await entriesOf('mika'), 'nothing was written').toBe(lengthBefore)
})

describe('what does not come from the platform is refused, and nothing is written', () => {
  const nowSeconds = () => Math.floor(Date.now() / 1000)
  const body =
    'command=%2Fcheckin&user_id=U1MIKA&team_id=T1&trigger_id=1.2.3&response_url=http%3A%2F%2F127.0.0.1%2F'
  const sign = (text: string, at: number, secret = signingSecret) => ({
    'content-type': 'application/x-www-form-urlencoded',
    'x-slack-request-timestamp': String(at),
    'x-slack-signature': `v0=${createHmac('sha256', secret).update(`v0:${at}:${text}`).digest('hex')}`,
  })

  test('unsigned', async () => {
    const answer = await clinic.workspace.raw({ 'content-type': 'application/x-www-form-urlencoded' }, body)
    expect(answer.status).toBe(401)
  })

  test('forged with another secret', async () => {
    expect((await clinic.workspace.raw(sign(body, nowSeconds(), 'f'.repeat(32)), body)).status).toBe(401)
  })

  test('stale by more than five minutes', async () => {
    expect((await clinic.workspace.raw(sign(body, nowSeconds() - 301), body)).status).toBe(401)
  })

  test('signed for another time in the future', async () => {
    expect((await clinic.workspace.raw(sign(body, nowSeconds() + 301), body)).status).toBe(401)
  })

  test('signed but malformed', async () => {
    const text = '{"type":"event_callback"'
    const headers = { ...sign(text, nowSeconds()), 'content-type': 'application/json' }
    expect((await clinic.workspace.raw(headers, text)).status).toBe(400)
  })

  test('too large to be a form', async () => {
    const text = `payload=${'x'.repeat(5_000_000)}`
    expect((await clinic.workspace.raw(sign(text, nowSeconds()), text)).status).toBe(413)
  })
})

describe('people are told what to do next', () => {
  test('somebody whom the clinic does not know', async () => {
    const outcome = await clinic.workspace.as('U9NOBODY').command('/today')
    expect(outcome.reply?.text).toContain('ask the clinic lead to add you')
  })

  test('a coach who tries to check in', async () => {
    expect((await clinic.as('noor').command('/checkin')).reply?.text).toContain('Only athletes check in')
  })

  test('a coach asks for today and reads the list, nothing medical', async () => {
    const words = (await clinic.as('noor').command('/today')).reply?.text ?? ''
    expect(words).toContain('Mika Oddvar')
    expect(words).not.toMatch(/pain|tibia|sore|stress/i)
  })

  test('"none of these" beside a sign is for the athlete to resolve', async () => {
    const mika = await fillMorning(clinic, 'mika', { 'signs-always': ['none', 'chest-pain'] })
    const sent = await mika.submit()
    expect(sent.closed).toBe(false)
    expect(sent.errors?.['signs-always']).toContain('either')
    await mika.close(true)
  })

  test('an ordinary morning is saved once; the second form of the same day is refused and keeps what was typed', async () => {
    const mika = await fillMorning(clinic, 'mika')
    expect((await mika.submit()).closed).toBe(true)
    await clinic.settle()
    const length = await entriesOf('mika')
    const again = await fillMorning(clinic, 'mika', { worstPain: '4' })
    const sent = await again.submit()
    expect(sent.closed).toBe(false)
    expect(Object.values(sent.errors ?? {})).toEqual(['You have checked in for today.'])
    await again.close(true)
    expect(await entriesOf('mika')).toBe(length)
    lengthBefore = length
  })

  test('numbers out of range are refused at their field before the app is asked', async () => {
    const mika = clinic.as('mika')
    await mika.command('/session')
    await clinic.settle()
    mika.fill('bodyWeightPct', '140')
    for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) mika.fill(field, '0')
    const sent = await mika.submit()
    expect(sent.errors?.bodyWeightPct).toBeDefined()
    await mika.close(true)
  })
})

describe('the desk checks again what a form may have let through', () => {
  const session = {
    kind: 'session-done',
    athlete: 'mika',
    day: '2026-03-16',
    bouts: [{ gait: 'run', bodyWeightPct: 50, speedMps: 2.5, inclinePct: 0, minutes: 1, repeats: 4 }],
    painBefore: 0,
    painDuring: 0,
    painAfter: 0,
    rpe: 3,
  }
  const wrong = [
    { what: 'pain of 11', submission: { ...session, painDuring: 11 }, words: 'painDuring' },
    {
      what: 'a body weight of 0 %',
      submission: { ...session, bouts: [{ ...session.bouts[0], bodyWeightPct: 0 }] },
      words: 'bodyWeightPct',
    },
    {
      what: 'a run on a day that has not come',
      submission: { ...session, day: '2026-03-17' },
      words: 'not come yet',
    },
    {
      what: 'a run before the enrolment',
      submission: { ...session, day: '2026-03-01' },
      words: 'before the enrolment',
    },
    { what: 'a kind that is none', submission: { kind: 'prescribe-anything' }, words: 'kind' },
  ]
  for (const { what, submission, words } of wrong)
    test(`${what} is refused with words`, async () => {
      await expect(clinic.submit('iben', submission)).rejects.toThrow(words)
    })

  test('a coach cannot sign a plan, whatever the form says', async () => {
    const plan = { kind: 'clearance', athlete: 'mika', state: 'return to sport', until: '2026-12-31' }
    await expect(clinic.submit('noor', plan)).rejects.toThrow('This is for the therapist')
  })

  test('an athlete cannot check in for another', async () => {
    const morning = { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] } }
    await expect(
      clinic.submit('adaeze', { kind: 'check-in', athlete: 'mika', day: '2026-03-16', answers: morning }),
    ).rejects.toThrow('This is for the athlete')
  })
})

async function entriesOf(athlete: string): Promise<number> {
  return (await clinic.bot.desk.charts.read(athlete)).entries.length
}
