import fc from 'fast-check'
import { expect, test } from 'vitest'
import { legLengthM, springMass, springMassPeakBw } from '../../src/science/spring-mass.ts'

const stance = {
  flightSeconds: 0.119,
  contactSeconds: 0.228,
  speedMps: 3.5,
  massKg: 70,
  legLengthM: legLengthM(178),
}

test('the peak keeps momentum: over one step the mean force is the carried weight [morin-2005]', () => {
  const second = fc.double({ min: 0.05, max: 0.5, noNaN: true })
  fc.assert(
    fc.property(second, second, fc.double({ min: 0.2, max: 1, noNaN: true }), (flight, contact, carried) => {
      const meanOverStep =
        (springMassPeakBw(flight, contact, carried) * (2 / Math.PI) * contact) / (flight + contact)
      expect(meanOverStep).toBeCloseTo(carried, 9)
    }),
  )
})

test('a contact 10 % shorter makes the vertical spring about 20 % stiffer [morin-2005]', () => {
  const now = springMass(stance)
  const shorter = springMass({ ...stance, contactSeconds: 0.9 * stance.contactSeconds })
  const stiffer = shorter.verticalStiffnessNPerM / now.verticalStiffnessNPerM - 1
  expect(stiffer).toBeGreaterThan(0.15)
  expect(stiffer).toBeLessThan(0.3)
})

test('a runner sinks by centimetres, and the leg shortens more than the body sinks', () => {
  const { sinkM, legM, peakN } = springMass(stance)
  expect(peakN / (70 * 9.81)).toBeCloseTo(2.391, 3)
  expect(sinkM).toBeGreaterThan(0.03)
  expect(sinkM).toBeLessThan(0.1)
  expect(legM).toBeGreaterThan(sinkM)
})
