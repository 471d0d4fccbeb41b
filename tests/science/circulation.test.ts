import { expect, test } from 'vitest'
import { arterialPressureRiseMmHg, chamberPressureMmHg } from '../../src/science/circulation.ts'
import { isRefusal } from '../../src/science/refusal.ts'

test('less weight on the legs needs more pressure around them [lbpp-blood-pressure]', () => {
  for (let pct = 25; pct < 100; pct++)
    expect(Number(chamberPressureMmHg(pct))).toBeGreaterThan(Number(chamberPressureMmHg(pct + 1)))
  expect(isRefusal(chamberPressureMmHg(24))).toBe(true)
})

test('what cycling does to arterial pressure is never told of running [jap-1998, stucky-2018]', () => {
  expect(arterialPressureRiseMmHg('upright-cycling', 25)).toBe(7)
  expect(arterialPressureRiseMmHg('running', 25)).toBe(0)
  expect(isRefusal(arterialPressureRiseMmHg('running', 41))).toBe(true)
  expect(isRefusal(arterialPressureRiseMmHg('upright-cycling', 76))).toBe(true)
})
