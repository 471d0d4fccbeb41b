import { expect, test } from 'vitest'
import type { Chart } from '../../src/chart/chart.ts'
import { readChart } from '../../src/chart/chart.ts'
import { nextDue, whatIsDue } from '../../src/rules/due.ts'
import { raise } from '../../src/rules/escalation.ts'
import { adasChart, after, at, heardBy, kinds, teamOf } from './clinic-of-tests.ts'

const team = teamOf()

/** Silent days one after the other: the question, the reminder, the cut-off. */
const silentDay = (chart: Chart, day: string) => {
  let now = chart
  const heard: string[] = []
  for (const time of ['06:30', '08:00', '09:30']) {
    const decision = whatIsDue(now, team, at(time, day))
    heard.push(...heardBy(decision).filter((one) => !one.startsWith('call')))
    now = after(now, decision)
  }
  return { chart: now, heard }
}

test('a silent morning: asked once, reminded once, written down as missed', () => {
  const { chart, heard } = silentDay(adasChart(), '2026-05-12')
  expect(heard).toEqual(['prompt to ada', 'reminder to ada'])
  expect(chart.missed.has('2026-05-12')).toBe(true)
})

test('the therapist hears of it after two silent days in a row, not after one', () => {
  const first = silentDay(adasChart(), '2026-05-12')
  expect(first.heard).not.toContain('note to iben')
  expect(silentDay(first.chart, '2026-05-13').heard).toContain('note to iben')
})

test('within eight weeks of surgery one silent day is enough', () => {
  expect(silentDay(adasChart({ surgeryDay: '2026-04-20' }), '2026-05-12').heard).toContain('note to iben')
  expect(silentDay(adasChart({ surgeryDay: '2026-03-01' }), '2026-05-12').heard).not.toContain('note to iben')
})

test('with a flag open one silent day is enough', () => {
  const because = [{ finding: 'calf', words: 'Calf.', source: 'dvt-algorithm' }]
  const alarm = {
    concern: 'body' as const,
    about: 'check-in/ada/2026-05-11',
    tier: 'urgent' as const,
    because,
  }
  const open = after(adasChart(), raise(adasChart(), alarm, team, at('05:00')))
  expect(silentDay(open, '2026-05-12').heard).toContain('note to iben')
})

test('the chart is due for the question, then for the reminder, then for the cut-off', () => {
  let chart = adasChart()
  const due: (string | null)[] = []
  for (const time of ['06:00', '06:30', '08:00']) {
    chart = after(chart, whatIsDue(chart, team, at(time)))
    due.push(nextDue(chart, team, at(time)))
  }
  expect(due).toEqual([at('06:30'), at('08:00'), at('09:30')])
})

test('while a call rings its chart is looked at every minute', () => {
  const because = [{ finding: 'calf', words: 'Calf.', source: 'dvt-algorithm' }]
  const alarm = { concern: 'body' as const, about: 'x', tier: 'urgent' as const, because }
  const bare = readChart(
    'ada',
    adasChart().entries.filter((entry) => entry.kind === 'enrolment'),
  )
  const ringing = after(bare, raise(bare, alarm, team, at('10:00')))
  expect(nextDue(ringing, team, at('10:00'))).toBe(at('10:01'))
  expect(kinds(whatIsDue(ringing, team, at('10:01')), 'call-made')).toEqual([])
})
