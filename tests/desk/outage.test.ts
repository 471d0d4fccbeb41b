import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Escalation } from '../../src/chart/calls.ts'
import { minutesBetween, plusMinutes } from '../../src/chart/day.ts'
import { cast } from '../../src/rehearsal/cast.ts'
import { type ClinicAtWork, fillMorning, openClinic } from '../slack/clinic.ts'

const outageMinutes = 120

let clinic: ClinicAtWork
/** What the chart said of the alarm in the last minute of the outage, and after it. */
let during: Escalation
let after: Escalation
let audits: readonly Escalation[]
/** What had reached anybody by then, by account. */
let reachedDuring = 0

const messagesTo = (account: string) => clinic.workspace.as(account).messages()
const everyMessage = () => cast.flatMap(({ account }) => messagesTo(account))
const keyOf = (message: object) =>
  (message as { metadata?: { event_payload?: { key?: string } } }).metadata?.event_payload?.key

async function minutes(count: number) {
  for (let n = 0; n < count; n += 1) {
    clinic.clock.pushTo(plusMinutes(clinic.clock.now(), 1))
    await clinic.bot.round()
    await clinic.settle()
  }
}

const alarmsOf = async () => (await clinic.bot.desk.charts.read('mika')).escalations

beforeAll(async () => {
  clinic = await openClinic(['mika'])
  const mika = await fillMorning(clinic, 'mika', { 'signs-always': ['cannot-walk'] })
  const before = everyMessage().length
  clinic.workspace.faults.outage(true)
  expect((await mika.submit()).closed).toBe(true)
  await clinic.settle()
  await minutes(outageMinutes)
  reachedDuring = everyMessage().length - before
  const [ringing] = await alarmsOf()
  if (!ringing) throw new Error('nothing rings')
  during = ringing
  clinic.workspace.faults.outage(false)
  await minutes(6)
  const [first, ...others] = await alarmsOf()
  if (!first) throw new Error('nothing rings')
  after = first
  audits = others.filter(({ concern }) => concern === 'audit')
}, 120_000)
afterAll(() => clinic.close())

describe('the chat platform is down for two hours while a call is open', () => {
  test('the form was taken before: the alarm is in the chart, and nobody could be reached', () => {
    expect(reachedDuring).toBe(0)
    expect(clinic.workspace.faults.counts.outage).toBeGreaterThan(0)
    expect([...during.sent.keys(), ...during.delivered.keys()]).toEqual([])
    expect(during.acknowledged).toBeUndefined()
  })

  test('the list went on as it is written: each next call when the time of the one before had run out', () => {
    expect(during.calls.length).toBeGreaterThan(1)
    for (const [i, call] of during.calls.slice(1).entries()) {
      const before = during.calls[i]
      expect(call.recordedAt).toBe(before?.ackBy)
    }
    const people = during.opened.callList.map(({ person }) => person)
    expect(during.calls.map(({ person }) => person)).toEqual(
      during.calls.map((_, i) => people[i % people.length]),
    )
  })

  test('each call that the platform did not take in time is a breach, written down once', () => {
    const notSent = during.breaches.filter(({ what }) => what === 'not sent')
    const overdue = during.calls.filter(
      ({ recordedAt }) => minutesBetween(recordedAt, clinic.clock.now()) > 11,
    )
    expect(notSent.length).toBeGreaterThanOrEqual(overdue.length)
    expect(new Set(after.breaches.map(({ id }) => id)).size).toBe(after.breaches.length)
    expect(after.breaches.map(({ what }) => what)).not.toContain('late')
  })

  test('afterwards every call of the two hours is delivered, and the chart says so', () => {
    for (const { call } of during.calls) {
      expect(after.sent.has(call)).toBe(true)
      expect(after.delivered.has(call)).toBe(true)
    }
  })

  test('everybody who was called holds the message, and nothing was said twice', () => {
    for (const { person } of during.calls) {
      const account = cast.find(({ id }) => id === person)?.account ?? ''
      const calls = messagesTo(account).filter(({ blocks }) =>
        JSON.stringify(blocks).includes('"acknowledge"'),
      )
      expect(calls.length).toBeGreaterThan(0)
    }
    const keys = everyMessage()
      .map(keyOf)
      .filter((key) => key !== undefined)
    expect(keys.length).toBeGreaterThan(during.calls.length)
    expect(new Set(keys).size).toBe(keys.length)
  })

  test('a call that is only on its way is shown as that, and one that was sent is never shown as seen', () => {
    const calls = everyMessage()
      .map(({ blocks }) => JSON.stringify(blocks))
      .filter((words) => words.includes('Called: '))
    // Those that went out first after the outage tell of others that had not gone out yet.
    expect(calls.some((words) => words.includes('(on its way)'))).toBe(true)
    expect(calls.some((words) => /Has not reached [^.]*\(on its way\)/.test(words))).toBe(true)
    for (const words of calls) expect(words).not.toMatch(/\bseen\b|\bread\b|\bheard\b/)
  })

  test('the auditor called about it, and the clinic lead can read what was breached', () => {
    expect(audits.length).toBeGreaterThan(0)
    for (const audit of audits)
      expect(audit.because.map(({ finding }) => finding)).toContain('breach-not-sent')
    const lead = messagesTo(cast.find(({ role }) => role === 'clinic-lead')?.account ?? '')
    expect(lead.map(({ blocks }) => JSON.stringify(blocks)).join()).toContain(
      'not taken by the platform in time',
    )
  })

  test('whoever then takes the call ends it: nobody is called again', async () => {
    const taker = cast.find(({ id }) => id === after.calls.at(-1)?.person)?.account ?? ''
    const call = messagesTo(taker).findLast(({ blocks }) => JSON.stringify(blocks).includes('"acknowledge"'))
    await clinic.workspace
      .as(taker)
      .press({ channel: call?.channel ?? '', ts: call?.ts ?? '' }, 'acknowledge')
    await clinic.settle()
    await minutes(15)
    const alarms = await alarmsOf()
    const taken = alarms.find(({ acknowledged }) => acknowledged)
    expect(taken?.calls.length).toBe([after, ...audits].find(({ id }) => id === taken?.id)?.calls.length)
  })
})
