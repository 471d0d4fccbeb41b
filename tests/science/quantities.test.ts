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

describe('each quantity is read in full and with its unit, and nothing beside it', () => {
  const rows: [string, (text: string) => unknown, readonly [string, number][], readonly string[]][] = [
    [
      'mass',
      read.readMassKg,
      [
        ['70kg', 70],
        ['72.55 kg', 72.55],
        ['  72.5  KG ', 72.5],
        ['160 lb', 160 * 0.45359237],
        ['160lbs', 160 * 0.45359237],
        ['160.25 lbs', 160.25 * 0.45359237],
      ],
      ['70', 'about 70 kg', '70 kg or so', '70x kg', '160 lb or so', 'about 160 lb', 'kg', '-70 kg'],
    ],
    [
      'height',
      read.readHeightCm,
      [
        ['178cm', 178],
        ['178.25 cm', 178.25],
        ['1.78 m', 178],
        ['1.785m', 178.5],
        ['12 m', 1200],
        ['2m', 200],
        ['70 in', 177.8],
        ['70.25in', 70.25 * 2.54],
      ],
      ['178', 'about 178 cm', '178 cm tall', 'x1.78 m', '1.78 m tall', 'x 70 in', '70 in tall', '178x cm'],
    ],
    [
      'cadence',
      read.readCadenceSpm,
      [
        ['168 spm', 168],
        ['168.25spm', 168.25],
      ],
      ['168', 'about 168 spm', '168 spm or so'],
    ],
    [
      'minutes',
      read.readMinutes,
      [
        ['12', 12],
        ['12.25 min', 12.25],
        [' 7.5min ', 7.5],
      ],
      ['about 12', '12 minutes or so', '12 h', 'min'],
    ],
    [
      'percent',
      (text) => read.readPct(text, 'Body weight'),
      [
        ['65%', 65],
        ['65.25 %', 65.25],
        ['-3%', -3],
      ],
      ['65', 'x65%', '65% or so'],
    ],
  ]
  for (const [name, reader, accepted, refused] of rows)
    test(name, () => {
      for (const [text, value] of accepted) expect(reader(text), text).toBeCloseTo(value, 9)
      for (const text of refused) expect(isRefusal(reader(text)), text).toBe(true)
    })
  test('a speed or a pace of nothing is neither', () => {
    for (const text of ['0 mph', '0 km/h', '0 min/km', '0:00 min/mile'])
      expect(isRefusal(read.readSpeed(text))).toBe(true)
    expect(read.readSpeed(' 10 km/h ')).toEqual(read.readSpeed('10 km/h'))
    expect(read.readSpeed(' 6:00 min/km ')).toEqual(read.readSpeed('6:00 min/km'))
  })
})
