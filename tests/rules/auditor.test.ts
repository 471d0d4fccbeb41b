import { expect, test } from 'vitest'
import { type Chart, openCalls, openEscalations, withEntries } from '../../src/chart/chart.ts'
import type { Entry } from '../../src/chart/entries.ts'
import { audit } from '../../src/rules/auditor.ts'
import { raise } from '../../src/rules/escalation.ts'
import { acknowledge } from '../../src/rules/escalation-answer.ts'
import { overdue } from '../../src/rules/escalation-due.ts'
import { adasChart, after, at, heardBy, kinds, teamOf } from './clinic-of-tests.ts'

const team = teamOf()
const about = 'check-in/ada/2026-05-12'
const id = `escalation/${about}`
const because = [{ finding: 'calf', words: 'Calf.', source: 'dvt-algorithm' }]
const signed = (entryId: string, time: string) => ({
  id: entryId,
  athlete: 'ada',
  author: 'sanderling',
  recordedAt: at(time),
})
const sent = (call: number, time: string): Entry => ({
  ...signed(`${id}/call/${call}/call-sent`, time),
  kind: 'call-sent',
  escalation: id,
  call,
})
const what = (chart: Chart, time: string) =>
  audit(chart, team, at(time)).entries.flatMap((entry) => (entry.kind === 'breach' ? [entry.what] : []))

const opened = after(
  adasChart(),
  raise(adasChart(), { concern: 'body', about, tier: 'urgent', because }, team, at('08:00')),
)
const ringing = withEntries(opened, [sent(1, '08:00')])

test('an alarm that does what its list says is left alone', () => {
  expect(what(ringing, '09:01')).toEqual([])
  const next = withEntries(after(ringing, overdue(ringing, team, at('09:00'))), [sent(2, '09:00')])
  expect(what(next, '09:30')).toEqual([])
  const held = after(ringing, acknowledge(ringing, id, { by: 'iben', team, now: at('08:30') }))
  expect(what(held, '20:00')).toEqual([])
})

test('two minutes late is let pass, more is a breach, and it stays one after it was made good', () => {
  expect(what(ringing, '09:02')).toEqual([])
  expect(what(ringing, '09:03')).toEqual(['late'])
  const madeGood = withEntries(after(ringing, overdue(ringing, team, at('09:10'))), [sent(2, '09:10')])
  expect(what(madeGood, '09:11')).toEqual(['late'])
})

test('a call that the platform has not taken within five minutes is a breach', () => {
  expect(what(opened, '08:05')).toEqual([])
  expect(what(opened, '08:06')).toEqual(['not sent'])
})

test('a call to somebody who is not on the list is a breach', () => {
  const stray: Entry = {
    ...signed(`${id}/call/2`, '08:20'),
    kind: 'call-made',
    escalation: id,
    call: 2,
    person: 'coco',
    why: 'no answer',
    ackBy: at('10:00'),
  }
  expect(what(withEntries(ringing, [stray, sent(2, '08:20')]), '08:30')).toEqual(['off the list'])
})

test('an open call whose hold is gone is a breach', () => {
  const struck: Entry = {
    ...signed('amendment/ada/1', '08:10'),
    kind: 'amendment',
    strikes: `hold/${about}`,
    words: 'by mistake',
  }
  expect(what(withEntries(ringing, [struck]), '08:30')).toEqual(['no hold'])
})

test('a breach is itself called, to the clinic lead, once; it does not bar running by itself', () => {
  const decision = audit(ringing, team, at('09:03'))
  expect(heardBy(decision)).toEqual(['call to sunniva'])
  const chart = after(ringing, decision)
  expect(openCalls(chart)).toHaveLength(2)
  expect(openEscalations(chart)).toHaveLength(1)
  expect(audit(chart, team, at('09:04')).entries).toEqual([])
})

test('a call in confidence that nobody answers: the lead hears that it is so', () => {
  const alarm = { concern: 'support' as const, about, tier: 'urgent' as const, because }
  const quiet = after(adasChart(), raise(adasChart(), alarm, team, at('08:00')))
  const again = after(quiet, overdue(quiet, team, at('09:00')))
  const decision = audit(again, team, at('09:01'))
  expect(kinds(decision, 'breach').map((entry) => entry.kind === 'breach' && entry.what)).toContain(
    'nobody answers',
  )
  expect(heardBy(decision)).toEqual(['call to sunniva'])
})
