import { expect, test } from 'vitest'
import { atLeast, reaches, shown, tableOf, under } from '../../src/commands/bench-row.ts'

test('a share of the reference is met at the share and not just below it', () => {
  expect(reaches('commits', 700, 1000, 0.7)).toMatchObject({ ratio: 0.7, met: true })
  expect(reaches('commits', 699, 1000, 0.7).met).toBe(false)
})

test('a number is met at the number and not just below it', () => {
  expect(atLeast('decisions', 20_000, 20_000).met).toBe(true)
  expect(atLeast('decisions', 19_999, 20_000).met).toBe(false)
})

test('a start must be short both by itself and beside the bare framework', () => {
  expect(under('start', 2.9, 3, { unit: 's', reference: 1, times: 4 }).met).toBe(true)
  expect(under('start', 3, 3, { unit: 's', reference: 1, times: 4 }).met).toBe(false)
  expect(under('start', 2.9, 3, { unit: 's', reference: 0.7, times: 4 }).met).toBe(false)
})

test('the table says ours, the reference, the ratio, the target and whether it is met', () => {
  const rows = [
    reaches('commits', 1234.5, 1000, 0.7),
    under('start', 0.81, 3, { unit: 's' }),
    shown('science', 99),
  ]
  expect(tableOf(rows)).toEqual([
    '| what | ours | reference | ratio | target | met |',
    '| --- | --- | --- | --- | --- | --- |',
    '| commits | 1,235 /s | 1,000 /s | 1.23 | ratio at least 0.7 | yes |',
    '| start | 0.810 s | - | - | under 3 s | yes |',
    '| science | 99.0 /s | - | - | - | yes |',
  ])
})
