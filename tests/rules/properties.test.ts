import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { daysBetween, plusDays } from '../../src/chart/day.ts'
import { runMinutes } from '../../src/chart/dose.ts'
import type { Entry } from '../../src/chart/entries.ts'
import { allows } from '../../src/rules/prescription-dose.ts'
import { respond } from '../../src/rules/response.ts'
import { decide } from '../../src/rules/why.ts'
import { type Decision, historyArb, lived } from './histories.ts'
import { team } from './life.ts'

/** Together more than ten thousand charts; the seed is fixed so that a failure can be looked at again. */
const charts = (numRuns: number) => ({ numRuns, seed: 20260302 })

const eachDecision = (holds: (decision: Decision) => void, numRuns: number) =>
  fc.assert(
    fc.property(historyArb, (history) => {
      for (const decision of lived(history).decisions) holds(decision)
    }),
    charts(numRuns),
  )

describe('whatever an athlete answers, does or leaves out', () => {
  test('a step up follows only a settled response, with an answer on that day and on the morning after', () => {
    let up = 0
    eachDecision(({ chart, checkIn, prescription }) => {
      if (prescription.move !== 'up') return
      up += 1
      const last = chart.sessions.toSorted((a, b) => (a.day < b.day ? -1 : 1)).at(-1)
      expect(last && respond(chart, last, checkIn.day).response).toBe('settled')
      expect(chart.checkIns.some(({ day }) => day === plusDays(last?.day ?? '', 1))).toBe(true)
      expect(chart.checkIns.at(-1)?.day).toBe(prescription.day)
    }, 2000)
    expect(up).toBeGreaterThan(300)
  })

  test('no run goes above ceiling, treadmill or surgeon, or where no clearance reaches', () => {
    let runs = 0
    eachDecision(({ chart, prescription }) => {
      const { dose } = prescription
      expect(prescription.what === 'run').toBe(dose !== undefined)
      if (!dose || !chart.plan) return
      runs += 1
      const { ceiling } = chart.plan
      const surgeon = chart.episode?.surgeonLimits?.bodyWeightPct ?? 100
      for (const bout of dose.bouts) {
        expect(bout.bodyWeightPct).toBeLessThanOrEqual(Math.min(ceiling.bodyWeightPct, surgeon))
        expect(bout.speedMps?.high ?? 0).toBeLessThanOrEqual(ceiling.speedMps)
        if (bout.gait === 'run') expect(bout.speedMps).toBeDefined()
        if (dose.on === 'lbpp-treadmill')
          expect(bout.bodyWeightPct).toBeGreaterThanOrEqual(team.clinic.treadmill.bodyWeightPct.low)
      }
      expect(runMinutes(dose).high).toBeLessThanOrEqual(ceiling.runMinutes + 1e-9)
      expect(chart.clearance && allows(chart.clearance.state, dose.on)).toBe(true)
    }, 2000)
    expect(runs).toBeGreaterThan(3000)
  })

  test('nobody runs on days that touch, or more often than the ladder allows, whatever the plan', () => {
    eachDecision(({ chart, checkIn, prescription }) => {
      if (prescription.what !== 'run' || !chart.plan) return
      const { limits } = chart.plan.ladder
      const past = chart.sessions.filter(({ day }) => day <= checkIn.day)
      for (const { day } of past)
        expect(daysBetween(day, checkIn.day)).toBeGreaterThanOrEqual(limits.daysFromRunToRun)
      const recent = past.filter(({ day }) => daysBetween(day, checkIn.day) < 7)
      expect(recent.length).toBeLessThan(limits.sessionsPer7Days)
    }, 2000)
  })

  test('nothing is run under a hold, a lapsed clearance, or before the day of the surgeon', () => {
    eachDecision(({ chart, checkIn, prescription }) => {
      if (prescription.what !== 'run') return
      expect(chart.holds).toEqual([])
      expect(chart.clearance?.state).not.toBe('no running')
      expect((chart.clearance?.until ?? '') >= checkIn.day).toBe(true)
      expect((chart.episode?.noRunBefore ?? '') <= checkIn.day).toBe(true)
      if (chart.episode?.tissue === 'bone')
        for (const session of chart.sessions)
          if (session.painDuring > 0 && session.recordedAt >= (chart.plan?.recordedAt ?? ''))
            expect(chart.lifted.has(`hold/${session.id}`)).toBe(true)
    }, 2000)
  })
})

describe('a decision depends on the chart and the instant alone', () => {
  test('the same chart and instant give the same decision', () => {
    fc.assert(
      fc.property(historyArb, (history) => {
        const { entries } = lived(history)
        const now = entries.at(-1)?.recordedAt ?? ''
        const decided = decide(readChart('ada', entries), team, now)
        expect(decide(readChart('ada', structuredClone(entries)), team, now)).toEqual(decided)
      }),
      charts(1000),
    )
  })

  test('striking out an entry gives what the chart without it gives', () => {
    fc.assert(
      fc.property(historyArb, fc.nat(), (history, pick) => {
        const { entries } = lived(history)
        const struck = entries[pick % entries.length]
        const now = entries.at(-1)?.recordedAt ?? ''
        const amendment: Entry = {
          id: 'amendment/ada/1',
          athlete: 'ada',
          author: 'iben',
          recordedAt: now,
          kind: 'amendment',
          strikes: struck?.id ?? '',
          words: 'Wrong athlete.',
        }
        const with_ = decide(readChart('ada', [...entries, amendment]), team, now)
        const without = decide(
          readChart(
            'ada',
            entries.filter((entry) => entry !== struck),
          ),
          team,
          now,
        )
        expect(with_).toEqual(without)
      }),
      charts(1500),
    )
  })
})
