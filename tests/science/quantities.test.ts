import { describe, expect, test } from 'vitest'
import * as read from '../../src/science/quantities.ts'
import { isRefusal } from '../../src/science/refusal.ts'

describe('a speed is read in every unit people use', () => {
  test.each([
    ['7 mph', 3.12928],
    ['7mph', 3.12928],
    ['11.3 km/h', 3.13889],
    ['3.1 m/s', 3.1],
    ['5:20 min/km', 3.125],
    ['5.5 min/km', 3.0303],
    ['8:30 min/mile', 3.15558],
  ])('%s', (text, speedMps) => {
    const speed = read.readSpeed(text)
    expect(isRefusal(speed) ? Number.NaN : speed.speedMps).toBeCloseTo(speedMps, 4)
  })

  test.each(['7', '', 'fast', '0 mph', '-7 mph', '7 knots', '8:75 min/mile', '7 mph x'])(
    'and "%s" is refused with what is accepted',
    (text) => {
      const speed = read.readSpeed(text)
      expect(isRefusal(speed) && speed.words).toMatch(/7 mph.*km\/h.*min\/mile/)
    },
  )
})

test('miles follow the 26.8 of the published equations, kilometres are exact [acsm-2020]', () => {
  const rounded = read.readSpeed('8 mph')
  const pace = read.readSpeed('7:30 min/mile')
  const exact = read.readSpeed('12 km/h')
  expect(isRefusal(rounded) ? 0 : rounded.metresPerMinute).toBeCloseTo(214.4, 9)
  expect(isRefusal(pace) ? 0 : pace.metresPerMinute).toBeCloseTo(214.4, 9)
  expect(isRefusal(exact) ? 0 : exact.metresPerMinute).toBeCloseTo(200, 9)
})

test('a percentage, a mass, a height and a cadence need their unit; minutes may go without', () => {
  expect(read.readPct('65%', 'Body weight')).toBe(65)
  expect(read.readPct('4.5 %', 'Incline')).toBe(4.5)
  expect(isRefusal(read.readPct('65', 'Body weight'))).toBe(true)
  expect(read.readMassKg('70kg')).toBe(70)
  expect(read.readMassKg('154 lb')).toBeCloseTo(69.853, 3)
  expect(isRefusal(read.readMassKg('70'))).toBe(true)
  expect(read.readHeightCm('178cm')).toBe(178)
  expect(read.readHeightCm('1.78 m')).toBeCloseTo(178, 9)
  expect(read.readHeightCm('70 in')).toBeCloseTo(177.8, 9)
  expect(isRefusal(read.readHeightCm('178'))).toBe(true)
  expect(read.readCadenceSpm('168 spm')).toBe(168)
  expect(isRefusal(read.readCadenceSpm('168'))).toBe(true)
  expect(read.readMinutes('12')).toBe(12)
  expect(read.readMinutes('12 min')).toBe(12)
  expect(isRefusal(read.readMinutes('a while'))).toBe(true)
})
