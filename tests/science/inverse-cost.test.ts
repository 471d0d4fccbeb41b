import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cost } from '../../src/science/cost.ts'
import { costAtVo2 } from '../../src/science/inverse-cost.ts'
import { isRefusal } from '../../src/science/refusal.ts'
import { mpsFromMph } from '../../src/science/units.ts'

const ground = { gait: 'run', bodyWeightPct: 100, measuredBodyWeightPct: 100 } as const

test('49.3 mL/kg/min at 7 mph is a grade of 4.90 %, not 2.5 % [acsm-worked-d]', () => {
  const found = costAtVo2(49.3, { ...ground, speedMps: mpsFromMph(7), metresPerMinute: 187.6 })
  if (isRefusal(found)) throw new Error(found.words)
  expect(found.gradePct).toBeCloseTo(4.904, 3)
  expect(found.vo2MlKgMin).toBeCloseTo(49.3, 9)
})

test('the cost of what an inverse finds is what was asked, for speed and for grade', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 2.3, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 14, noNaN: true }),
      (speedMps, gradePct) => {
        const forward = cost({ ...ground, speedMps, gradePct })
        if (isRefusal(forward) || typeof forward.vo2MlKgMin !== 'number')
          throw new Error('a number was expected')
        const bySpeed = costAtVo2(forward.vo2MlKgMin, { ...ground, speedMps })
        const byGrade = costAtVo2(forward.vo2MlKgMin, { ...ground, gradePct })
        expect(isRefusal(bySpeed) ? Number.NaN : bySpeed.gradePct).toBeCloseTo(gradePct, 6)
        expect(isRefusal(byGrade) ? Number.NaN : byGrade.speedMps).toBeCloseTo(speedMps, 6)
      },
    ),
  )
})

test('under support there is no one inverse, and with both or neither given there is none either', () => {
  const kind = (answer: unknown) => (isRefusal(answer) ? answer.refused : 'answered')
  expect(kind(costAtVo2(40, { gait: 'run', bodyWeightPct: 65, gradePct: 0 }))).toBe('say-more')
  expect(kind(costAtVo2(40, { ...ground, measuredBodyWeightPct: 93, gradePct: 0 }))).toBe('say-more')
  expect(kind(costAtVo2(40, { ...ground, gradePct: 0, speedMps: 3 }))).toBe('say-more')
  expect(kind(costAtVo2(40, ground))).toBe('say-more')
})

test('a level jog of 8 MET lies where only a true run counts [acsm-worked-c]', () => {
  const asked = { ...ground, gradePct: 0 }
  expect(isRefusal(costAtVo2(28, asked)) && costAtVo2(28, asked)).toMatchObject({ refused: 'say-more' })
  const run = costAtVo2(28, { ...asked, trulyRunning: true })
  expect(isRefusal(run) ? 0 : run.speedMps * 60).toBeCloseTo(122.5, 9)
})

test('a target that would need more than the machine inclines is refused', () => {
  const steep = costAtVo2(90, { ...ground, speedMps: 3 })
  expect(isRefusal(steep) && steep.words).toContain('15%')
})
