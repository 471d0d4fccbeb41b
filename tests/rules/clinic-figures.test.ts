import { expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { clinicFigures } from '../../src/rules/clinic-figures.ts'
import { athlete, type Case, team } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }

test('the clinic today in numbers, nobody named', () => {
  const quiet = athlete(tibia)
  quiet.live('2026-03-02', 3)
  const silent = athlete(tibia)
  const called = athlete(tibia)
  called.morning('2026-03-04', { signs: { always: ['chest-pain'], bone: [] } })
  const missed = { ...silent.chart(), missed: new Map([['2026-03-04', { asked: true }]]) as never }
  const charts = [quiet.chart(), missed, called.chart(), readChart('nobody', [])]
  const now = (day: string) => clinicFigures(charts, team, `${day}T12:00:00.000Z`)
  expect(now('2026-03-04')).toEqual({
    enrolled: 3,
    answeredToday: 2,
    missedToday: 1,
    onHold: 1,
    openCalls: 1,
    runsIn7Days: 2,
  })
  expect(now('2026-03-08').runsIn7Days).toBe(2)
  expect(now('2026-03-09').runsIn7Days).toBe(1)
  expect(now('2026-03-09').answeredToday).toBe(0)
})
