import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as metabolic from '../../src/science/metabolic.ts'
import { isRefusal } from '../../src/science/refusal.ts'

const grade = fc.double({ min: 0, max: 15, noNaN: true })
const running = fc.double({ min: 134, max: 400, noNaN: true })
const walking = fc.double({ min: 50, max: 100, noNaN: true })

const kindOf = (answer: unknown) => (isRefusal(answer) ? answer.refused : 'answered')
const vo2 = (gait: 'walk' | 'run', metresPerMinute: number, trulyRunning = false) =>
  metabolic.vo2MlKgMin({ gait, metresPerMinute, gradePct: 0, trulyRunning })

describe('the equations are used only where they were made for, at the edge and just past it [acsm-2020]', () => {
  test.each([
    ['walk', 50, false, 'answered'],
    ['walk', 49.9, false, 'out-of-range'],
    ['walk', 100, false, 'answered'],
    ['walk', 100.1, false, 'out-of-range'],
    ['run', 134, false, 'answered'],
    ['run', 133.9, false, 'say-more'],
    ['run', 133.9, true, 'answered'],
    ['run', 80, true, 'answered'],
    ['run', 79.9, true, 'out-of-range'],
  ] as const)('%s at %d m/min, said to be a run: %s -> %s', (gait, speed, said, kind) => {
    expect(kindOf(vo2(gait, speed, said))).toBe(kind)
  })

  test('a refusal says what is accepted', () => {
    const refusal = vo2('run', 120)
    expect(isRefusal(refusal) && refusal.words).toMatch(/134 m\/min.*--truly-running/)
  })
})

test('faster and steeper cost more', () => {
  fc.assert(
    fc.property(running, running, grade, grade, (v1, v2, g1, g2) => {
      const [slow, fast] = [Math.min(v1, v2), Math.max(v1, v2)]
      const [flat, steep] = [Math.min(g1, g2), Math.max(g1, g2)]
      const at = (metresPerMinute: number, gradePct: number) =>
        metabolic.vo2MlKgMin({ gait: 'run', metresPerMinute, gradePct })
      expect(at(fast, flat)).toBeGreaterThanOrEqual(Number(at(slow, flat)))
      expect(at(slow, steep)).toBeGreaterThanOrEqual(Number(at(slow, flat)))
    }),
  )
})

test('both inverses invert, walking and running', () => {
  for (const [gait, speeds] of [
    ['run', running],
    ['walk', walking],
  ] as const)
    fc.assert(
      fc.property(speeds, grade, (metresPerMinute, gradePct) => {
        const cost = Number(metabolic.vo2MlKgMin({ gait, metresPerMinute, gradePct }))
        expect(Number(metabolic.gradePctForVo2(cost, { gait, metresPerMinute }))).toBeCloseTo(gradePct, 6)
        const back = metabolic.metresPerMinuteForVo2(cost, { gait, gradePct, trulyRunning: true })
        // At the very edge of the range the last bit may fall outside it, and is refused.
        if (!isRefusal(back)) expect(back).toBeCloseTo(metresPerMinute, 6)
      }),
    )
})

test('7 mph for 49.3 mL/kg/min needs 4.90 %, and never the 2.5 % of the walking constant [acsm-worked-d]', () => {
  const metresPerMinute = metabolic.metresPerMinuteAsPublished(7)
  const running = metabolic.gradePctForVo2(49.3, { gait: 'run', metresPerMinute })
  expect(running).toBeCloseTo(4.904, 2)
  expect(Math.abs(Number(running) - 2.5)).toBeGreaterThan(2)
})

test('a cost that the level already exceeds has no grade', () => {
  expect(kindOf(metabolic.gradePctForVo2(20, { gait: 'run', metresPerMinute: 200 }))).toBe('out-of-range')
})

test('marathoners spend more per metre the faster they run, unlike the equation [marathoner-cost]', () => {
  expect(metabolic.marathonerVo2MlKgMin(333.3) / 333.3).toBeGreaterThan(
    metabolic.marathonerVo2MlKgMin(166.7) / 166.7,
  )
})
