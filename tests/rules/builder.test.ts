import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Ladder } from '../../src/chart/ladder.ts'
import { type Built, build, type Wish } from '../../src/rules/builder.ts'
import { boutsOf, costOf, risePct } from '../../src/rules/builder-cost.ts'
import { faultsOf } from '../../src/rules/ladder-check.ts'
import { library } from './life.ts'

const wish = (change: Partial<Wish> = {}): Wish => ({
  id: 'built',
  effective: '2026-03-01',
  tissues: ['bone'],
  diagnoses: ['any'],
  start: { bodyWeightPct: 50, speedMps: 8 / 3.6, minutes: 10 },
  goal: { speedMps: 9 / 3.6, minutes: 30, on: 'ground' },
  most: { forceRisePct: 10, loadRisePct: 20 },
  treadmill: library.clinic.treadmill,
  runner: {},
  ...change,
})

function built(change: Partial<Wish> = {}): Built {
  const outcome = build(wish(change))
  if ('refused' in outcome) throw new Error(outcome.words)
  return outcome
}

describe('a ladder from 50 % to 30 minutes on the ground', () => {
  const { ladder, rungs } = built()
  test('begins and ends where it was asked to', () => {
    expect(rungs[0]?.stage).toMatchObject({ on: 'lbpp-treadmill', bodyWeightPct: 50, minutes: 10 })
    expect(rungs.at(-1)?.stage).toMatchObject({
      on: 'ground',
      bodyWeightPct: 100,
      minutes: 30,
      boutMinutes: 30,
    })
    expect((rungs.at(-1)?.stage.speedMps ?? 0) * 3.6).toBeCloseTo(9)
  })
  test('changes one thing from rung to rung: longer, heavier, unbroken, faster, and the ground last', () => {
    const changed = rungs.slice(1).map(({ stage }, i) => {
      const from = rungs[i]?.stage
      const differs = (['on', 'minutes', 'bodyWeightPct', 'speedMps'] as const).filter(
        (key) => stage[key] !== from?.[key],
      )
      return differs.length === 0 ? 'pauses' : differs.join('+')
    })
    expect([...new Set(changed)]).toEqual(['minutes', 'bodyWeightPct', 'pauses', 'speedMps', 'on'])
  })
  test('half as many bouts each time, so that nobody goes from five minutes to thirty in one step', () => {
    const atGoal = rungs.filter(({ stage }) => stage.bodyWeightPct === 100 && stage.on === 'lbpp-treadmill')
    const bouts = atGoal.map(({ stage }) => [boutsOf(stage), stage.minutes / boutsOf(stage)])
    expect(bouts).toEqual([[6, 5], [3, 10], [2, 15], ...bouts.slice(3)])
    expect(new Set(bouts.slice(3).map(String))).toEqual(new Set(['1,30']))
    expect(rungs.map(({ changed }) => changed)).toEqual(
      expect.arrayContaining(['6 to 3 bouts', '3 to 2 bouts', 'no walking between']),
    )
  })
  test('every rung says what changed, what it costs and how it is run', () => {
    expect(rungs[0]).toMatchObject({ changed: 'start', forceRisePct: 0, loadRisePct: 0 })
    const changed = rungs.map((rung) => rung.changed)
    expect(changed).toContain('50 to 55 % of body weight')
    expect(changed).toContain('8.0 to 9.0 km/h')
    expect(changed.at(-1)).toBe('from the treadmill to the ground')
    expect(ladder.rungs.map(({ note }) => note)).toEqual(changed)
    expect(ladder.rungs.map(({ name }) => name)).toEqual(rungs.map((_, i) => `rung ${i + 1}`))
    expect(ladder.rungs[0]?.bouts).toEqual([
      {
        gait: 'run',
        repeats: { low: 2, high: 2 },
        minutes: { low: 5, high: 5 },
        speedKmh: { low: 8, high: 8 },
        inclinePct: 0,
        recovery: { gait: 'walk', minutes: 1 },
      },
    ])
    expect(ladder.rungs.at(-1)?.bouts[0]).toMatchObject({
      repeats: { low: 1, high: 1 },
      minutes: { low: 30 },
    })
    expect(ladder.rungs.at(-1)?.bouts[0]?.recovery).toBeUndefined()
  })
  test('says where it came from, who may start it and when it is done', () => {
    expect(ladder.title).toBe('Built: 50 % to 30 min on the ground')
    expect(built({ goal: { ...wish().goal, on: 'lbpp-treadmill' } }).ladder.title).toBe(
      'Built: 50 % to 30 min in the treadmill',
    )
    expect(ladder.sources.map(({ key }) => key)).toEqual(['common-practice', 'isbs-distance-first'])
    for (const { gives } of ladder.sources) expect(gives).toMatch(/\w+ \w+/)
    expect(ladder.entry).toEqual(['cleared for unloaded running by the treating clinician'])
    expect(ladder.exit).toEqual(['30 minutes, settled'])
    expect(ladder.examples).toEqual([
      {
        about: 'the last rung runs the minutes of the goal',
        rung: rungs.length,
        runMinutes: { low: 30, high: 30 },
      },
    ])
  })
  test('is a ladder that the library would take', () => {
    expect(Ladder.parse(ladder)).toEqual(ladder)
    expect(faultsOf(ladder)).toEqual([])
    expect(ladder.about).toContain('A draft until a therapist signs it')
    expect(ladder.rungs[1]?.note).toBe('10 to 11.5 min')
  })
})

test('whatever is asked, no rung rises by more than the limits, at the light or the heavy end, and the treadmill is respected', () => {
  let ladders = 0
  fc.assert(
    fc.property(
      fc.record({
        bodyWeightPct: fc.integer({ min: 20, max: 100 }),
        kmh: fc.integer({ min: 8, max: 12 }),
        faster: fc.integer({ min: 0, max: 4 }),
        minutes: fc.integer({ min: 3, max: 20 }),
        force: fc.integer({ min: 9, max: 25 }),
        load: fc.integer({ min: 15, max: 60 }),
        step: fc.constantFrom(1, 2, 5),
        on: fc.constantFrom('ground' as const, 'lbpp-treadmill' as const),
      }),
      (asked) => {
        const treadmill = {
          ...library.clinic.treadmill,
          bodyWeightPct: { low: 20, high: 100, step: asked.step },
        }
        const outcome = build(
          wish({
            start: { bodyWeightPct: asked.bodyWeightPct, speedMps: asked.kmh / 3.6, minutes: asked.minutes },
            goal: { speedMps: (asked.kmh + asked.faster) / 3.6, minutes: 30, on: asked.on },
            most: { forceRisePct: asked.force, loadRisePct: asked.load },
            treadmill,
          }),
        )
        if ('refused' in outcome) return
        ladders += 1
        for (const [i, { stage, cost }] of outcome.rungs.entries()) {
          expect(stage.bodyWeightPct).toBeLessThanOrEqual(100)
          if (stage.on === 'lbpp-treadmill')
            expect((stage.bodyWeightPct - asked.bodyWeightPct) % asked.step).toBe(0)
          const before = outcome.rungs[i - 1]
          if (!before) continue
          expect(risePct(before.cost.peakForceBw, cost.peakForceBw)).toBeLessThanOrEqual(asked.force + 1e-9)
          expect(risePct(before.cost.loadBw, cost.loadBw)).toBeLessThanOrEqual(asked.load + 1e-9)
        }
      },
    ),
    { numRuns: 150, seed: 20260302 },
  )
  expect(ladders).toBeGreaterThan(50)
})

describe('what cannot be built is refused, with what to change', () => {
  const refusal = (change: Partial<Wish>) => {
    const outcome = build(wish(change))
    if ('refused' in outcome) expect(outcome.refused).toBe('cannot-build')
    return 'refused' in outcome ? outcome.words : 'built'
  }
  test('limits below the smallest step say how much that step raises', () => {
    expect(refusal({ most: { forceRisePct: 1, loadRisePct: 20 } })).toMatch(
      /smallest step of body weight \(50 to 51 %.*raises peak force by [1-9]/,
    )
    expect(refusal({ most: { forceRisePct: 10, loadRisePct: 4 } })).toMatch(
      /smallest step of minutes \(10 to 10.5 min\)/,
    )
  })
  test('outside the treadmill, or to a goal behind the start', () => {
    const start = wish().start
    expect(refusal({ start: { ...start, bodyWeightPct: 19 } })).toContain('from 20 to 100 %')
    expect(refusal({ goal: { speedMps: 6, minutes: 30, on: 'ground' } })).toContain('up to 19.4 km/h')
    expect(refusal({ start: { ...start, minutes: 31 } })).toContain('shorter or slower')
    expect(refusal({ start: { ...start, speedMps: 3 } })).toContain('shorter or slower')
  })
  test('at the very edges of the treadmill, and to a goal that is the start, it can be built', () => {
    const { start } = wish()
    expect(refusal({ start: { ...start, bodyWeightPct: 20 } })).not.toContain('carries from')
    expect(refusal({ start: { ...start, bodyWeightPct: 100 } })).toBe('built')
    expect(refusal({ start: { ...start, bodyWeightPct: 101 } })).toContain('from 20 to 100 %')
    const same = { ...start, bodyWeightPct: 100, minutes: 5 }
    const stays = built({ start: same, goal: { speedMps: same.speedMps, minutes: 5, on: 'lbpp-treadmill' } })
    expect(stays.rungs).toHaveLength(1)
    expect(stays.rungs[0]?.stage.boutMinutes).toBe(5)
    expect(stays.ladder.rungs[0]?.bouts[0]?.recovery).toBeUndefined()
    const short = built({
      start: { ...same, minutes: 3 },
      goal: { ...wish().goal, minutes: 3.5, speedMps: start.speedMps },
    })
    expect(short.rungs[0]?.stage.boutMinutes).toBe(3)
    const belt = wish().treadmill.speedMps.high
    expect(
      refusal({
        start: { ...same, speedMps: belt },
        goal: { speedMps: belt, minutes: 5, on: 'lbpp-treadmill' },
      }),
    ).not.toContain('runs up to')
  })
  test('a ladder of more than sixty rungs is no ladder', () => {
    const start = { bodyWeightPct: 50, speedMps: 8 / 3.6, minutes: 9 }
    const goal = { speedMps: 9 / 3.6, minutes: 230, on: 'ground' as const }
    expect(refusal({ start, goal, most: { forceRisePct: 10, loadRisePct: 6 } })).toContain(
      'More than 60 rungs',
    )
  })
})

test('the ground is heavier than the treadmill set to 100 %, which carries about 93 % [set-actual-2015]', () => {
  const stage = { bodyWeightPct: 100, speedMps: 2.5, minutes: 10, boutMinutes: 10 }
  const inside = costOf({ ...stage, on: 'lbpp-treadmill' }, {})
  const outside = costOf({ ...stage, on: 'ground' }, {})
  if ('refused' in inside || 'refused' in outside) throw new Error('not reckoned')
  expect(risePct(inside.peakForceBw, outside.peakForceBw)).toBeGreaterThan(5)
  expect(outside.loadBw.high).toBeCloseTo(outside.steps.high * outside.peakForceBw.high)
})

describe('a wish that cannot be built is refused at the field it is about', () => {
  const refusedAt = (change: Partial<Wish>) => {
    const outcome = build(wish(change))
    return 'refused' in outcome ? outcome.field : 'built'
  }
  const { start, goal } = wish()
  test.each([
    ['start.bodyWeightPct', { start: { ...start, bodyWeightPct: 15 } }],
    ['start.speedMps', { start: { ...start, speedMps: 6 }, goal: { ...goal, speedMps: 6 } }],
    ['goal.speedMps', { goal: { ...goal, speedMps: 6 } }],
    ['goal.speedMps', { goal: { ...goal, speedMps: 2 } }],
    ['goal.minutes', { goal: { ...goal, minutes: 9 } }],
    ['most.forceRisePct', { most: { forceRisePct: 0.1, loadRisePct: 20 } }],
    ['most.loadRisePct', { most: { forceRisePct: 10, loadRisePct: 1 } }],
    [
      'most.loadRisePct',
      {
        start: { ...start, minutes: 60 },
        goal: { ...goal, minutes: 200 },
        most: { forceRisePct: 2, loadRisePct: 2 },
      },
    ],
    ['built', {}],
  ] as const)('%s', (field, change) => expect(refusedAt(change)).toBe(field))
})
