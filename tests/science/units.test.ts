import fc from 'fast-check'
import Qty from 'js-quantities'
import { expect, test } from 'vitest'
import * as units from '../../src/science/units.ts'

const positive = fc.double({ min: 0.01, max: 1000, noNaN: true })

test('every unit of speed and pace comes back to itself', () => {
  fc.assert(
    fc.property(positive, (x) => {
      expect(units.kmhFromMps(units.mpsFromKmh(x))).toBeCloseTo(x, 8)
      expect(units.mphFromMps(units.mpsFromMph(x))).toBeCloseTo(x, 8)
      expect(units.minPerKmFromMps(units.mpsFromMinPerKm(x))).toBeCloseTo(x, 8)
      expect(units.minPerMileFromMps(units.mpsFromMinPerMile(x))).toBeCloseTo(x, 8)
      expect(units.supportPct(units.supportPct(x))).toBeCloseTo(x, 8)
    }),
  )
})

test('conversions agree with a general library of units, to its own nine digits', () => {
  fc.assert(
    fc.property(positive, (x) => {
      const close = (mine: number, theirs: number) => expect(mine / theirs).toBeCloseTo(1, 8)
      close(units.mpsFromMph(x), new Qty(x, 'mph').to('m/s').scalar)
      close(units.mpsFromKmh(x), new Qty(x, 'kph').to('m/s').scalar)
      close(units.kmFromMiles(x), new Qty(x, 'mi').to('km').scalar)
      close(units.mpsFromMinPerMile(x), 1 / new Qty(x, 'min/mi').to('s/m').scalar)
      close(units.mpsFromMinPerKm(x), 1 / new Qty(x, 'min/km').to('s/m').scalar)
      close(x * units.kgPerPound, new Qty(x, 'lb').to('kg').scalar)
      close(x * units.cmPerInch, new Qty(x, 'in').to('cm').scalar)
    }),
  )
})

test('a pace is shown as a watch shows it, and never as 7:60', () => {
  expect(units.paceWords(8.5714)).toBe('8:34')
  expect(units.paceWords(7.9999)).toBe('8:00')
})
