import { expect, test } from 'vitest'
import { run } from '../../src/commands/load.ts'
import { asked } from './asked.ts'

const record = async (...argv: string[]) => JSON.parse((await asked(run, [...argv, '--json'])).out)

test('a week of loads has its load, monotony and strain [foster-1998]', async () => {
  const week = await record('--series', '0,300,600,150,450,0,900')
  expect(week).toMatchObject({ days: 7, weekLoad: 2400, spread: 'sample', reasons: {} })
  expect(week.monotony).toBeCloseTo(1.0321, 4)
  expect(week.strain).toBeCloseTo(2477, 0)
  expect((await record('--series', '0,300,600,150,450,0,900', '--sd', 'population')).monotony).toBeCloseTo(
    1.1148,
    4,
  )
})

test('a month keeps its last seven days for the week and all of it for the trend [williams-2017]', async () => {
  const days = [...Array.from({ length: 21 }, () => 30), ...Array.from({ length: 7 }, () => 50)]
  const month = await record('--series', days.join(','))
  expect(month.weekLoad).toBe(350)
  expect(month.monotony).toBeNull()
  expect(month.reasons.monotony).toMatch(/same load/)
  expect(month.ewmaRatio).toBeCloseTo(1.2497, 4)
})

test('what is undefined is null with a reason', async () => {
  expect(await record('--series', '0,0,0')).toMatchObject({
    weekLoad: 0,
    monotony: null,
    ewmaRatio: null,
    reasons: { ewmaRatio: expect.any(String), strain: expect.any(String) },
  })
})

test('the criticism is shown in words and in the record [impellizzeri-2020]', async () => {
  const { out } = await asked(run, ['--series', '300,0,450'])
  expect(out).toMatch(/750 over 3 days, not yet a whole week/)
  expect(out).toMatch(/not a validated predictor/)
  expect((await record('--series', '300,0,450')).notes).toHaveLength(1)
})

test.each([
  [[]],
  [['--series', '300,,450']],
  [['--series', '300,-1']],
  [['--series', 'a lot']],
  [['--series', '1,2', '--sd', 'both']],
])('%j ends with 2 and one line', async (argv) => {
  const { exit, err } = await asked(run, argv)
  expect(exit).toBe(2)
  expect(err.trimEnd().split('\n')).toHaveLength(1)
})
