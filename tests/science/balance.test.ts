import { expect, test } from 'vitest'
import { anteriorDifference, balanceCompositePct } from '../../src/science/balance.ts'
import { isRefusal } from '../../src/science/refusal.ts'

test('4 cm between the legs is not above the published 4 cm, 5 cm is [plisky-2006]', () => {
  expect(anteriorDifference(62, 58)).toEqual({ cm: 4, abovePublished: false })
  expect(anteriorDifference(57, 62)).toEqual({ cm: 5, abovePublished: true })
})

test('a composite needs a leg', () => {
  expect(isRefusal(balanceCompositePct({ anterior: 1, posteromedial: 1, posterolateral: 1 }, 0))).toBe(true)
})
