import { expect, test } from 'vitest'
import {
  aclRsi,
  koosSubscale,
  lefsChangeBeyondNoise,
  type Questionnaire,
  scoreOf,
} from '../../src/science/questionnaires.ts'
import { isRefusal } from '../../src/science/refusal.ts'
import { scores } from '../../src/science/scores-table.ts'

test.each(Object.entries(scores.questionnaires))(
  '%s is taken at both bounds and refused just past them',
  (name, { bounds }) => {
    const [least, most] = bounds.value
    const kind = (total: number) => isRefusal(scoreOf(name as Questionnaire, total))
    expect([kind(least), kind(most), kind(least - 1), kind(most + 1)]).toEqual([false, false, true, true])
  },
)

test('one total under two codings gives two scores: the coding is part of the name [ikdc-scoring]', () => {
  const score = (name: Questionnaire) => {
    const answer = scoreOf(name, 60)
    return isRefusal(answer) ? Number.NaN : answer.score
  }
  expect(score('ikdc')).toBeCloseTo(68.97, 2)
  expect(score('ikdc-from-1')).toBeCloseTo(48.28, 2)
})

test('the two wellness scales point opposite ways [hooper-1995, mclean-2010]', () => {
  expect(scores.questionnaires['wellness-4'].better).toBe('lower')
  expect(scores.questionnaires['wellness-5'].better).toBe('higher')
})

test('a KOOS subscale needs half of its items: 3 of 5 will do, 2 of 5 will not [koos-2012]', () => {
  expect(koosSubscale([1, 2, 2, null, null])).toBeCloseTo(100 - (25 * 5) / 3, 9)
  expect(isRefusal(koosSubscale([1, 2, null, null, null]))).toBe(true)
  expect(isRefusal(koosSubscale([]))).toBe(true)
  expect(isRefusal(koosSubscale([5, 1, 1, 1, 1]))).toBe(true)
})

test('the readiness scale needs twelve answers from 0 to 100 [acl-rsi]', () => {
  expect(isRefusal(aclRsi([50, 60]))).toBe(true)
  expect(isRefusal(aclRsi(Array.from({ length: 12 }, () => 101)))).toBe(true)
})

test('52 to 61 on the LEFS rises above noise, 52 to 60 does not [binkley-1999]', () => {
  expect(lefsChangeBeyondNoise(52, 61)).toBe(true)
  expect(lefsChangeBeyondNoise(52, 60)).toBe(false)
})
