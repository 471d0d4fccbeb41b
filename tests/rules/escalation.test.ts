import { expect, test } from 'vitest'
import type { Chart } from '../../src/chart/chart.ts'
import { openEscalations, withEntries } from '../../src/chart/chart.ts'
import { plusMinutes } from '../../src/chart/day.ts'
import { clearedLine } from '../../src/rules/cleared.ts'
import { isRefusal } from '../../src/rules/decision.ts'
import { whatIsDue } from '../../src/rules/due.ts'
import { type Alarm, raise } from '../../src/rules/escalation.ts'
import { acknowledge, close, handOver } from '../../src/rules/escalation-answer.ts'
import { overdue } from '../../src/rules/escalation-due.ts'
import { colleaguesFor } from '../../src/rules/hand-over.ts'
import { prescribe } from '../../src/rules/prescription.ts'
import { adasChart, after, at, clinic, heardBy, kinds, people, teamOf, without } from './clinic-of-tests.ts'
import { inWords } from './in-order.ts'

const team = teamOf()
const sore = { finding: 'bone-pain-at-night', words: 'Bone pain at night.', source: 'hoenig-2023' }
const chest = { finding: 'chest-or-faint', words: 'Chest pain.', source: 'aha-14' }
const about = 'check-in/ada/2026-05-12'
const id = `escalation/${about}`
const urgent: Alarm = { concern: 'body', about, tier: 'urgent', because: [sore] }
const emergency: Alarm = { ...urgent, tier: 'emergency', because: [chest] }

const rung = (chart: Chart) => chart.escalations[0]?.calls.map((made) => made.person) ?? []
const opened = (alarm = urgent, now = at('08:00')) => after(adasChart(), raise(adasChart(), alarm, team, now))
const asked = (by: string, now = at('08:10')) => ({ by, team, now })
const refusal = (answer: object) => (isRefusal(answer) && inWords(answer) ? answer.refused : undefined)

test('an urgent flag calls the treating therapist at once, tells the athlete and holds running', () => {
  const decision = raise(adasChart(), urgent, team, at('08:00'))
  expect(heardBy(decision)).toEqual(['stop to ada', 'call to iben'])
  expect(kinds(decision, 'hold')).toHaveLength(1)
})

test('the next person is called when sixty minutes pass in silence, and not before', () => {
  const chart = opened()
  expect(overdue(chart, team, at('08:59')).entries).toEqual([])
  expect(rung(after(chart, overdue(chart, team, at('09:00'))))).toEqual(['iben', 'ravi'])
})

test('in an emergency the next person is called after ten minutes', () => {
  const chart = opened(emergency)
  expect(overdue(chart, team, at('08:09')).entries).toEqual([])
  expect(rung(after(chart, overdue(chart, team, at('08:10'))))).toEqual(['iben', 'ravi'])
})

test('nobody answers: the list starts again, the athlete is told not to wait, and it never closes itself', () => {
  let chart = opened()
  for (const hour of ['09:00', '10:00']) chart = after(chart, overdue(chart, team, at(hour)))
  const again = overdue(chart, team, at('11:00'))
  expect(heardBy(again)).toEqual(['call to iben', 'stop to ada'])
  for (let hour = 12; hour < 24; hour += 1) chart = after(chart, overdue(chart, team, at(`${hour}:00`)))
  expect(openEscalations(chart)).toHaveLength(1)
  expect(chart.holds).toHaveLength(1)
})

test('a call list of one person is called again and again', () => {
  const alone = teamOf(people.filter(({ id: one }) => ['ada', 'sunniva'].includes(one)))
  let chart = after(adasChart(), raise(adasChart(), urgent, alone, at('08:00')))
  chart = after(chart, overdue(chart, alone, at('09:00')))
  expect(rung(chart)).toEqual(['sunniva', 'sunniva'])
})

test('the first press wins and the second is told who has it; a stranger cannot press', () => {
  const chart = opened()
  const taken = after(chart, acknowledge(chart, id, asked('ravi')))
  const second = acknowledge(taken, id, asked('iben'))
  expect(second).toMatchObject({ refused: 'taken', words: expect.stringContaining('Ravi') })
  expect(refusal(acknowledge(taken, id, asked('ravi')))).toBe('yours')
  expect(refusal(acknowledge(chart, id, asked('kit')))).toBe('not-on-list')
  expect(refusal(acknowledge(chart, id, asked('coco')))).toBe('not-on-list')
})

test('who was acknowledged is not called on, however late it gets before the deadline to close', () => {
  const chart = after(opened(), acknowledge(opened(), id, asked('iben')))
  expect(overdue(chart, team, at('23:00')).entries).toEqual([])
})

test('acknowledged and not closed in a day: reminded, then back on the list', () => {
  const chart = after(opened(), acknowledge(opened(), id, asked('iben')))
  const nextDay = at('08:10', '2026-05-13')
  const early = overdue(chart, team, plusMinutes(nextDay, -1))
  expect(early.entries).toEqual([])
  const reminded = overdue(chart, team, nextDay)
  expect(heardBy(reminded)).toEqual(['call to iben'])
  const later = after(chart, reminded)
  expect(overdue(later, team, plusMinutes(nextDay, 29)).entries).toEqual([])
  const back = after(later, overdue(later, team, plusMinutes(nextDay, 30)))
  expect(back.escalations[0]?.acknowledged).toBeUndefined()
  expect(rung(back)).toEqual(['iben', 'ravi'])
  expect(refusal(acknowledge(back, id, asked('ravi', plusMinutes(nextDay, 31))))).toBeUndefined()
})

test('the same sign again updates the alarm and rings nobody', () => {
  const again = raise(
    opened(),
    { ...urgent, about: 'check-in/ada/2026-05-13' },
    team,
    at('08:00', '2026-05-13'),
  )
  expect(kinds(again, 'escalation-updated')).toMatchObject([{ worse: false }])
  expect(kinds(again, 'call-made')).toEqual([])
  expect(kinds(again, 'escalation-opened')).toEqual([])
  expect(kinds(again, 'hold')).toEqual([])
})

test('a worse sign rings whoever has it anew, says so, and wants a new acknowledgement within ten minutes', () => {
  const held = after(opened(), acknowledge(opened(), id, asked('iben')))
  const worse = raise(held, { ...emergency, about: 'check-in/ada/2026-05-13' }, team, at('09:00'))
  expect(kinds(worse, 'call-made')).toMatchObject([{ person: 'iben', why: 'worse', ackBy: at('09:10') }])
  const chart = after(held, worse)
  expect(chart.escalations[0]).toMatchObject({ tier: 'emergency', acknowledged: undefined })
  expect(rung(after(chart, overdue(chart, team, at('09:10'))))).toEqual(['iben', 'iben', 'ravi'])
})

test('a call is handed over to a colleague by name, who is called at once and may press', () => {
  const held = after(opened(), acknowledge(opened(), id, asked('iben')))
  const handed = handOver(held, { escalation: id, to: 'kit' }, asked('iben'))
  expect(isRefusal(handed) ? [] : heardBy(handed)).toEqual(['call to kit'])
  const chart = after(held, handed)
  expect(refusal(acknowledge(chart, id, asked('kit')))).toBeUndefined()
  expect(refusal(handOver(held, { escalation: id, to: 'kit' }, asked('ravi')))).toBe('taken')
  expect(refusal(handOver(held, { escalation: id, to: 'coco' }, asked('iben')))).toBe('cannot-take-it')
  expect(refusal(handOver(held, { escalation: id, to: 'iben' }, asked('iben')))).toBe('same-person')
})

test('a colleague who stays silent after a hand-over does not end the calling', () => {
  const chart = after(opened(), handOver(opened(), { escalation: id, to: 'kit' }, asked('iben')))
  expect(rung(after(chart, overdue(chart, team, at('09:10'))))).toEqual(['iben', 'kit', 'ravi'])
})

test('colleagues who are trained for the flag are offered first', () => {
  const [e] = opened().escalations
  expect(e && colleaguesFor(e, 'iben', team, at('08:00'))[0]?.id).toBe('kit')
})

test('only an acknowledged call is closed, with a disposition, and the hold outlives it', () => {
  const closing = { escalation: id, disposition: 'seen in person' as const, words: 'Seen.' }
  expect(refusal(close(opened(), closing, asked('iben')))).toBe('not-acknowledged')
  const held = after(opened(), acknowledge(opened(), id, asked('iben')))
  const closed = after(held, close(held, closing, asked('iben')))
  expect(openEscalations(closed)).toEqual([])
  expect(closed.holds).toHaveLength(1)
  expect(refusal(close(closed, closing, asked('ravi')))).toBe('closed')
})

test('a call that can never arrive goes on at once; a colleague who has left is passed by', () => {
  const chart = opened()
  const failed = withEntries(chart, [
    {
      id: `${id}/call/1/call-failed`,
      athlete: 'ada',
      author: 'sanderling',
      recordedAt: at('08:00'),
      kind: 'call-failed',
      escalation: id,
      call: 1,
      words: 'gone',
    },
  ])
  expect(rung(after(failed, overdue(failed, team, at('08:00'))))).toEqual(['iben', 'ravi'])
  const left = teamOf(without('iben'))
  expect(rung(after(chart, overdue(chart, left, at('08:01'))))).toEqual(['iben', 'ravi'])
})

test('the clock jumps back an hour: nothing rings twice, and it rings on when the time has come', () => {
  const chart = opened()
  expect(overdue(chart, team, at('07:00')).entries).toEqual([])
  expect(rung(after(chart, overdue(chart, team, at('09:00'))))).toEqual(['iben', 'ravi'])
})

test('the clock jumps ahead a day: one call, not twenty-four, and the auditor says that it was late', () => {
  const decision = whatIsDue(opened(), team, at('08:00', '2026-05-13'))
  const own = decision.entries.filter((entry) => entry.kind === 'call-made' && entry.escalation === id)
  expect(own).toHaveLength(1)
  expect(kinds(decision, 'breach')).toMatchObject([{ what: 'late' }, { what: 'not sent' }])
})

test('with a hold there is no run, and coaches see no more than "not cleared today"', () => {
  const chart = opened()
  const checkIn = {
    id: about,
    athlete: 'ada',
    author: 'ada',
    recordedAt: at('08:00'),
    kind: 'check-in' as const,
    day: '2026-05-12',
    worstPain: 0,
    morningPain: 0,
    swelling: 'no' as const,
    signs: { always: [], bone: [] },
  }
  expect(prescribe(chart, checkIn, { ...team, clinic }, at('09:00')).what).toBe('rest')
  expect(clearedLine(chart, team, at('09:00'))).toMatchObject({
    today: 'not cleared today',
    ceiling: undefined,
  })
})
