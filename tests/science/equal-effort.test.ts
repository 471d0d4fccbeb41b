import fc from 'fast-check'
import { expect, test } from 'vitest'
import { equalEffortNotes, groundSpeedMps, machineSpeedMps } from '../../src/science/equal-effort.ts'
import { mpsFromMph } from '../../src/science/units.ts'

const grid = Array.from({ length: 13 }, (_, i) => mpsFromMph(4 + i / 2))

test('more support needs more speed, over the whole published grid [kline-2015]', () => {
  for (const ground of grid)
    for (let pct = 50; pct < 100; pct++) {
      const [more, less] = [
        machineSpeedMps(ground, { bodyWeightPct: pct }),
        machineSpeedMps(ground, { bodyWeightPct: pct + 1 }),
      ]
      expect(more.low).toBeGreaterThanOrEqual(less.low)
      expect(more.high).toBeGreaterThanOrEqual(less.high)
    }
})

test('the proportional speed-up shrinks as the ground speed rises [kline-2015]', () => {
  for (let pct = 50; pct < 100; pct += 10)
    for (const [i, ground] of grid.entries()) {
      const slower = grid[i - 1]
      if (slower === undefined) continue
      expect(machineSpeedMps(ground, { bodyWeightPct: pct }).low / ground).toBeLessThan(
        machineSpeedMps(slower, { bodyWeightPct: pct }).low / slower,
      )
      expect(machineSpeedMps(ground, { bodyWeightPct: pct }).high / ground).toBeLessThan(
        machineSpeedMps(slower, { bodyWeightPct: pct }).high / slower,
      )
    }
})

test('ground and machine speed lead back to one another', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 6, noNaN: true }),
      fc.integer({ min: 20, max: 100 }),
      (ground, pct) => {
        const machine = machineSpeedMps(ground, { bodyWeightPct: pct })
        expect(groundSpeedMps(machine.low, { bodyWeightPct: pct }).high).toBeCloseTo(ground, 8)
        expect(groundSpeedMps(machine.high, { bodyWeightPct: pct }).low).toBeCloseTo(ground, 8)
      },
    ),
  )
})

test('at a setting of 100 % the machine is still not an ordinary treadmill [gojanovic-2012]', () => {
  expect(machineSpeedMps(5.47, { bodyWeightPct: 100 }).high / 5.47).toBeGreaterThan(1.066)
})

test('outside the studied speeds and weights it is said', () => {
  expect(equalEffortNotes(3, { bodyWeightPct: 60 })).toEqual([])
  expect(equalEffortNotes(2.9, { bodyWeightPct: 60 }).map((note) => note.kind)).toEqual(['extrapolated'])
  expect(equalEffortNotes(3, { bodyWeightPct: 59 }).map((note) => note.kind)).toEqual(['extrapolated'])
})

test('where full weight is known, the ground is the ground', () => {
  const known = { bodyWeightPct: 100, measuredBodyWeightPct: 100 }
  expect(machineSpeedMps(3, known)).toEqual({ low: 3, high: 3 })
})
