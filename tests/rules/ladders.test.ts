import { describe, expect, test } from 'vitest'
import { metresOf, runMinutes } from '../../src/chart/dose.ts'
import { doseOf, Ladder, metresPerMile } from '../../src/chart/ladder.ts'
import { faultsOf } from '../../src/rules/ladder-check.ts'
import { nextStep } from '../../src/rules/move.ts'
import { library } from './life.ts'

function ladder(id: string): Ladder {
  const found = library.ladder(id)
  if (!found) throw new Error(id)
  return found
}
const miles = (id: string) =>
  ladder(id).rungs.map((rung) =>
    (['walk', 'run'] as const).map((gait) =>
      Number((metresOf(doseOf(rung), gait) / metresPerMile).toFixed(3)),
    ),
  )

describe('the ladders as they were published', () => {
  test('eight knee levels on a treadmill: miles walked and run [capin-2018]', () => {
    expect(miles('knee-eight-levels-treadmill')).toEqual([
      [1, 1],
      [0.7, 1.3],
      [0.5, 1.5],
      [0.4, 1.6],
      [0, 2],
      [0, 2.5],
      [0, 3],
      [0, 3],
    ])
  })
  test('and on a track [capin-2018]', () => {
    expect(miles('knee-eight-levels-track')).toEqual([
      [1, 1],
      [0.75, 1.25],
      [0.5, 1.5],
      [0.25, 1.75],
      [0, 2],
      [0, 2.5],
      [0, 3],
      [0, 3],
    ])
    expect(ladder('knee-eight-levels-track').limits).toMatchObject({
      sessionsPer7Days: 4,
      daysFromRunToRun: 2,
      rungsUpPer7Days: 2,
    })
  })
  test('two, two and a half and three miles are 3.219, 4.023 and 4.828 km', () => {
    const km = [5, 6, 7].map(
      (level) =>
        metresOf(
          doseOf(ladder('knee-eight-levels-treadmill').rungs[level - 1] as Ladder['rungs'][number]),
          'run',
        ) / 1000,
    )
    expect(km.map((one) => one.toFixed(3))).toEqual(['3.219', '4.023', '4.828'])
  })
  test('six phases of walking and running: minutes, miles, effort, each at least twice [soldiers-trial-2023]', () => {
    const { rungs } = ladder('walk-run-six-phases')
    expect(rungs.map(({ untilMiles }) => untilMiles)).toEqual([1, 1.5, 1.5, 2, 2, 2])
    expect(rungs.map(({ effort }) => effort)).toEqual([3, 3, 4, 4, 5, 5])
    expect(rungs.map(({ bouts }) => [bouts[0]?.recovery?.minutes, bouts[0]?.minutes?.low])).toEqual([
      [2, 3],
      [2, 3],
      [2, 4],
      [2, 4],
      [1, 4],
      [undefined, undefined],
    ])
    expect(rungs.every(({ sessions }) => sessions.low === 2)).toBe(true)
  })
  test('walk and run after a stress fracture: a week a stage, three a week on the first three [stress-fracture-handout]', () => {
    const { rungs, limits } = ladder('stress-fracture-walk-run')
    expect(
      rungs.slice(0, 8).map(({ bouts }) => [bouts[0]?.recovery?.minutes, bouts[0]?.minutes?.low]),
    ).toEqual([
      [3, 1],
      [2, 1],
      [2, 2],
      [1, 4],
      [1, 6],
      [1, 7],
      [1, 8],
      [1, 9],
    ])
    expect(rungs.map(({ sessions }) => sessions.high)).toEqual([3, 3, 3, 4, 4, 4, 4, 4, 4])
    expect(limits).toMatchObject({ rungsUpPer7Days: 1, restDaysWhenFlared: 3 })
  })
  test('nine phases after ACL surgery: two days of rest between runs at first, then one [children-hospital-2023]', () => {
    expect(ladder('acl-nine-phases').rungs.map(({ daysFromRunToRun }) => daysFromRunToRun)).toEqual([
      3, 3, 3, 2, 2, 2, 2, 2, 2,
    ])
    expect(
      miles('acl-nine-phases')
        .slice(4)
        .map(([, run]) => run),
    ).toEqual([1, 1.25, 1.5, 1.75, 2])
  })
  test('six weeks on the LBPP treadmill: 50 to 100 % carried, 20 to 25 minutes at the end [vincent-2022]', () => {
    const { rungs } = ladder('tibial-stress-reaction-lbpp')
    expect(rungs.map(({ bodyWeightPct }) => bodyWeightPct)).toEqual([50, 60, 70, 80, 90, 100])
    expect(rungs.map((rung) => runMinutes(doseOf(rung)))).toEqual([
      { low: 4, high: 5 },
      { low: 5, high: 10 },
      { low: 5, high: 15 },
      { low: 10, high: 15 },
      { low: 15, high: 20 },
      { low: 20, high: 25 },
    ])
    expect(rungs[0]?.bouts[0]?.speedMph).toEqual({ low: 5, high: 7 })
    expect(rungs[2]).toMatchObject({
      sessions: { low: 2, high: 3 },
      bouts: [{ repeats: { low: 5, high: 5 }, minutes: { low: 1, high: 3 }, speedMph: { low: 5, high: 7 } }],
    })
    expect(rungs.map(({ sessions }) => sessions.high)).toEqual([2, 3, 3, 3, 3, 3])
    expect(rungs.map(({ bouts }) => bouts[0]?.speedMph?.high)).toEqual([7, 7, 7, 8, 8, 8])
    expect(doseOf(rungs[5] as Ladder['rungs'][number]).bouts[0]?.speedMps?.high).toBeCloseTo(12.875 / 3.6, 3)
  })
})

describe('what every shipped ladder keeps', () => {
  for (const one of library.ladders)
    test(`${one.id}: its examples come out, and at most one thing is remembered nowhere`, () => {
      expect(faultsOf(one)).toEqual([])
      expect(one.sources.some(({ label }) => label === 'memory')).toBe(false)
      expect(one.limits.daysFromRunToRun).toBeGreaterThanOrEqual(2)
    })
  test('the tendon ladder changes one thing at a time', () => {
    const { rungs } = ladder('tendon-pain-monitored')
    for (const [i, rung] of rungs.entries()) {
      const before = rungs[i - 1]
      if (!before) continue
      const bouts = (r: typeof rung) => JSON.stringify(r.bouts)
      const changed = [
        rung.on !== before.on,
        rung.bodyWeightPct !== before.bodyWeightPct,
        bouts(rung) !== bouts(before),
      ]
      expect(changed.filter(Boolean)).toHaveLength(1)
    }
  })
})

describe('a ladder whose own examples fail is found out', () => {
  const base = ladder('knee-eight-levels-treadmill')
  const withExample = (example: object) => faultsOf(Ladder.parse({ ...base, examples: [example] }))
  test('wrong miles, wrong minutes, a wrong move, a rung that is not there', () => {
    expect(withExample({ about: 'x', rung: 2, miles: { walk: 0.6, run: 1.3 } })).toEqual([
      { at: ['examples', 0], words: 'rung 2 walks 0.70 and runs 1.30 miles' },
    ])
    expect(withExample({ about: 'x', rung: 2, miles: { walk: 0.7, run: 1.4 } })).toHaveLength(1)
    expect(withExample({ about: 'x', rung: 1, timesDone: 1, response: 'settled', move: 'repeat' })).toEqual([
      { at: ['examples', 0], words: 'the rules say up, the example says repeat' },
    ])
    expect(withExample({ about: 'x', rung: 9, timesDone: 1, response: 'settled', move: 'up' })).toEqual([
      { at: ['examples', 0], words: 'there is no rung 9' },
    ])
    const tibia = ladder('tibial-stress-reaction-lbpp')
    expect(
      faultsOf({ ...tibia, examples: [{ about: 'x', rung: 1, runMinutes: { low: 4, high: 6 } }] })[0]?.words,
    ).toBe('rung 1 runs 4 to 5 minutes')
    expect(
      faultsOf({ ...tibia, examples: [{ about: 'x', rung: 1, runMinutes: { low: 3, high: 5 } }] }),
    ).toHaveLength(1)
  })
})

describe('percent of body weight is always percent carried (T1)', () => {
  const base = ladder('tibial-stress-reaction-lbpp')
  test('a file that says support, or does not say, is refused', () => {
    for (const bodyWeight of ['support', undefined, 'unloading']) {
      const outcome = Ladder.safeParse({ ...base, bodyWeight })
      expect(outcome.error?.issues[0]?.message).toContain('must be "carried"')
    }
  })
})

describe('the next rung', () => {
  const base = ladder('walk-run-six-phases')
  const at = { rung: 2, timesDone: 2, rungsUpIn7Days: 0 }
  test('up only when settled, often enough, and not too soon', () => {
    expect(nextStep(base, at, 'settled')).toMatchObject({
      move: 'up',
      rung: 3,
      because: { finding: 'settled-and-done' },
    })
    expect(nextStep(base, { ...at, timesDone: 1 }, 'settled')).toMatchObject({
      move: 'repeat',
      rung: 2,
      because: { finding: 'not-often-enough' },
    })
    expect(nextStep(base, { ...at, rungsUpIn7Days: 1 }, 'settled').move).toBe('up')
    expect(nextStep(base, { ...at, rungsUpIn7Days: 2 }, 'settled')).toMatchObject({
      move: 'repeat',
      because: { finding: 'too-soon', words: 'No more than 2 rungs up in 7 days.' },
    })
    expect(nextStep(base, { ...at, rungsUpIn7Days: 1, rungsUpMost: 1 }, 'settled').because.finding).toBe(
      'too-soon',
    )
    expect(nextStep(base, { ...at, rung: 6 }, 'settled').because.finding).toBe('top-rung')
    expect(nextStep(base, { ...at, rung: 5 }, 'settled').rung).toBe(6)
    expect(nextStep(ladder('tibial-stress-reaction-lbpp'), { ...at, rung: 4 }, 'settled').move).toBe('up')
    expect(nextStep(ladder('tibial-stress-reaction-lbpp'), { ...at, rung: 5 }, 'settled').move).toBe('repeat')
    expect(nextStep(base, { ...at, rung: 6 }, 'settled').because.words).toContain('your therapist decides')
  })
  test('the same after a provoked run or silence, one back after a flare, never below the first', () => {
    expect(nextStep(base, at, 'provoked')).toMatchObject({
      move: 'repeat',
      rung: 2,
      because: { finding: 'provoked', source: 'soldiers-trial-2023' },
    })
    expect(nextStep(base, at, 'unknown')).toMatchObject({
      move: 'repeat',
      rung: 2,
      because: { finding: 'no-answer', source: 'common-practice' },
    })
    expect(nextStep(base, at, 'flared')).toMatchObject({
      move: 'back',
      rung: 1,
      because: { words: 'The last run hurt: one rung back.' },
    })
    expect(nextStep(base, { ...at, rung: 1 }, 'flared')).toMatchObject({
      move: 'back',
      rung: 1,
      because: { words: 'The last run hurt: the first rung again, at its easiest.' },
    })
    expect(nextStep(ladder('tibial-stress-reaction-lbpp'), { ...at, rung: 3 }, 'flared').because.words).toBe(
      'The last run hurt: one rung back, with more support.',
    )
    expect(nextStep(ladder('tendon-pain-monitored'), { ...at, rung: 3 }, 'flared').because.words).toBe(
      'The last run hurt: one rung back.',
    )
  })
})
