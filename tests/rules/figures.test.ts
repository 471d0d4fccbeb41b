import { expect, test } from 'vitest'
import { type Chart, withEntries } from '../../src/chart/chart.ts'
import { raise } from '../../src/rules/escalation.ts'
import { acknowledge, close } from '../../src/rules/escalation-answer.ts'
import { overdue } from '../../src/rules/escalation-due.ts'
import { figures } from '../../src/rules/figures.ts'
import { adasChart, after, at, teamOf } from './clinic-of-tests.ts'

const team = teamOf()
const because = [{ finding: 'calf', words: 'Calf.', source: 'dvt-algorithm' }]

const morning = (chart: Chart, day: string) =>
  withEntries(chart, [
    {
      id: `check-in/ada/${day}`,
      athlete: 'ada',
      author: 'ada',
      recordedAt: at('08:00', day),
      kind: 'check-in',
      day,
      worstPain: 0,
      morningPain: 0,
      swelling: 'no',
      signs: { always: [], bone: [] },
    },
  ])

/** A call of a day that somebody acknowledges and closes after so many minutes. */
const called = (chart: Chart, day: string, ackTime: string, closeTime: string, by = 'iben') => {
  const about = `check-in/ada/${day}`
  const escalation = `escalation/${about}`
  let now = after(
    chart,
    raise(chart, { concern: 'body', about, tier: 'urgent', because }, team, at('08:00', day)),
  )
  if (by === 'ravi') now = after(now, overdue(now, team, at('09:00', day)))
  now = after(now, acknowledge(now, escalation, { by, team, now: at(ackTime, day) }))
  return after(
    now,
    close(
      now,
      { escalation, disposition: 'called', words: 'Spoken.' },
      { by, team, now: at(closeTime, day) },
    ),
  )
}

test('calls per hundred check-ins, the middle and the slowest tenth, and what was handed on, by week', () => {
  let chart = adasChart()
  for (const day of ['2026-05-11', '2026-05-12', '2026-05-13', '2026-05-14']) chart = morning(chart, day)
  chart = called(chart, '2026-05-11', '08:10', '09:00')
  chart = called(chart, '2026-05-12', '09:30', '12:00', 'ravi')
  const [week, ...rest] = figures([chart], 'UTC')
  expect(rest).toEqual([])
  expect(week).toMatchObject({
    week: '2026-05-11',
    checkIns: 4,
    calls: 2,
    callsPer100CheckIns: 50,
    handedOnPct: 50,
    open: 0,
  })
  expect(week?.minutesToAcknowledge).toEqual({ median: 50, p90: 90, count: 2 })
  expect(week?.minutesToClose).toEqual({ median: 150, p90: 240, count: 2 })
})

test('the same sign again counts as a repeat; a week without check-ins has no rate', () => {
  const alarm = { concern: 'body' as const, about: 'a', tier: 'urgent' as const, because }
  const first = after(adasChart(), raise(adasChart(), alarm, team, at('08:00')))
  const second = after(first, raise(first, { ...alarm, about: 'b' }, team, at('09:00')))
  expect(figures([second], 'UTC')).toMatchObject([
    { calls: 1, repeats: 1, open: 1, callsPer100CheckIns: undefined, minutesToClose: undefined },
  ])
})
