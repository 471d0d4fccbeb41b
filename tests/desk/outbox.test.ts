import { describe, expect, test } from 'vitest'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { type DeskAtWork, morning, openDeskAtWork } from './desk.ts'

describe('a notice is told once, or written down as missed', () => {
  test('a rate limit is waited out for as long as the platform asks', async () => {
    const at = await prompted()
    at.face.weather = (_, tries) =>
      tries === 1 ? { failed: 'rate limited', outcome: 'not sent', retryAfterSeconds: 30 } : undefined
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(0)
    at.clock.pushBy({ seconds: 29 })
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(0)
    at.clock.pushBy({ seconds: 1 })
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(1)
  })

  test('after a lost reply it is looked for, and not sent again when it is there', async () => {
    const at = await prompted()
    at.face.weather = (told) =>
      told.notice.kind === 'prompt' ? { failed: 'no answer', outcome: 'unknown' } : undefined
    await emptyOutbox(at.desk)
    at.face.found = { channel: 'D1', ts: '1' }
    at.clock.pushBy({ minutes: 1 })
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(1)
    expect(await at.store.waiting()).toBe(0)
  })

  test('when the look fails too, a prompt waits: twice is worse than late', async () => {
    const at = await prompted()
    at.face.weather = (_, tries) => (tries === 1 ? { failed: 'no answer', outcome: 'unknown' } : undefined)
    await emptyOutbox(at.desk)
    at.face.found = 'unsure'
    at.clock.pushBy({ minutes: 1 })
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(1)
    expect(await at.store.waiting()).toBe(1)
  })

  test('a call whose reply was lost is sent again when in doubt: a duplicate beats silence', async () => {
    const at = await prompted()
    await emptyOutbox(at.desk)
    at.face.weather = (told, tries) =>
      told.notice.kind === 'call' && tries === 1 ? { failed: 'no answer', outcome: 'unknown' } : undefined
    await at.submit('mika', morning('mika', '2026-03-16', { signs: { always: ['chest-pain'], bone: [] } }))
    await emptyOutbox(at.desk)
    at.face.found = 'unsure'
    at.clock.pushBy({ minutes: 1 })
    await emptyOutbox(at.desk)
    expect(at.face.told.filter((notice) => notice.kind === 'call')).toHaveLength(2)
    expect(await at.store.waiting()).toBe(0)
  })

  test('a morning question is useless after the cut-off: it is written down as missed', async () => {
    const at = await prompted()
    at.face.weather = () => ({ failed: 'no connection', outcome: 'not sent' })
    await emptyOutbox(at.desk)
    at.face.weather = () => undefined
    at.clock.pushBy({ hours: 4 })
    await emptyOutbox(at.desk)
    expect(promptsIn(at)).toBe(0)
    expect(await at.store.waiting()).toBe(0)
  })

  test('a call never expires: two hours of outage later it still goes out', async () => {
    const at = await prompted()
    await emptyOutbox(at.desk)
    at.face.weather = () => ({ failed: 'no connection', outcome: 'not sent' })
    await at.submit('mika', morning('mika', '2026-03-16', { signs: { always: ['chest-pain'], bone: [] } }))
    await emptyOutbox(at.desk)
    at.clock.pushBy({ hours: 2 })
    at.face.weather = () => undefined
    await emptyOutbox(at.desk)
    expect(at.face.told.some((notice) => notice.kind === 'call')).toBe(true)
  })

  test('an account that is gone is not tried for ever', async () => {
    const at = await prompted()
    at.face.weather = () => ({ failed: 'user_disabled', outcome: 'never' })
    await emptyOutbox(at.desk)
    expect(await at.store.waiting()).toBe(0)
  })
})

async function prompted(): Promise<DeskAtWork> {
  const at = await openDeskAtWork()
  await emptyOutbox(at.desk)
  at.clock.pushTo('2026-03-16T06:30:00.000Z')
  await makeRounds(at.desk)
  return at
}

function promptsIn({ face }: DeskAtWork): number {
  return face.told.filter((notice) => notice.kind === 'prompt').length
}
