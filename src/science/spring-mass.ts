import { forceTable } from './force-table.ts'

/**
 * The sine-wave spring-mass model of running [morin-2005]: peak force and stiffness from contact and flight
 * time. It under-predicts peak force by about 7 % on a treadmill, most at slow speed; contact time is its
 * most sensitive input (10 % shorter gives about 20 % more stiffness).
 */
export type Stance = {
  readonly flightSeconds: number
  readonly contactSeconds: number
  readonly speedMps: number
  readonly massKg: number
  readonly legLengthM: number
}

/**
 * Peak in body weights, F = w (pi/2) (tf/tc + 1), for a carried fraction w (1 at full weight). Any unit of
 * time does: only the ratio counts. Under constant lift the same momentum balance holds; untested on LBPP.
 */
export function springMassPeakBw(flightTime: number, contactTime: number, carriedFraction = 1): number {
  return carriedFraction * (Math.PI / 2) * (flightTime / contactTime + 1)
}

/** Peak force N, compressions m, stiffnesses N/m, at full weight. */
export function springMass(stance: Stance) {
  const gravityMps2 = forceTable.gravityMps2.value
  const { flightSeconds, contactSeconds, speedMps, massKg, legLengthM } = stance
  const peakN = massKg * gravityMps2 * springMassPeakBw(flightSeconds, contactSeconds)
  const sinkM =
    (peakN * contactSeconds ** 2) / (massKg * Math.PI ** 2) - (gravityMps2 * contactSeconds ** 2) / 8
  const halfSweepM = (speedMps * contactSeconds) / 2
  const legM = legLengthM - Math.sqrt(legLengthM ** 2 - halfSweepM ** 2) + sinkM
  return { peakN, sinkM, legM, verticalStiffnessNPerM: peakN / sinkM, legStiffnessNPerM: peakN / legM }
}

/** Standing leg length from height, m: 0.53 of it [morin-2005]. */
export function legLengthM(heightCm: number): number {
  return (forceTable.legLengthPerHeight.value * heightCm) / 100
}
