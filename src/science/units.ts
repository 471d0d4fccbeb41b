/**
 * Units of running. The constants are exact by definition (international mile and inch); the rounded
 * 26.8 m/min per mph of the published worked examples lives in `metabolic.ts`, with its source.
 */
export const metresPerMile = 1609.344
export const cmPerInch = 2.54
export const kgPerPound = 0.45359237

export function mpsFromKmh(kmh: number): number {
  return kmh / 3.6
}

export function kmhFromMps(speedMps: number): number {
  return speedMps * 3.6
}

export function mpsFromMph(mph: number): number {
  return (mph * metresPerMile) / 3600
}

export function mphFromMps(speedMps: number): number {
  return (speedMps * 3600) / metresPerMile
}

export function mpsFromMinPerKm(minPerKm: number): number {
  return 1000 / (minPerKm * 60)
}

export function minPerKmFromMps(speedMps: number): number {
  return 1000 / (speedMps * 60)
}

export function mpsFromMinPerMile(minPerMile: number): number {
  return metresPerMile / (minPerMile * 60)
}

export function minPerMileFromMps(speedMps: number): number {
  return metresPerMile / (speedMps * 60)
}

export function kmFromMiles(miles: number): number {
  return (miles * metresPerMile) / 1000
}

/** Support is what the treadmill lifts: 65 % body weight carried is 35 % support. The same arithmetic both ways. */
export function supportPct(bodyWeightPct: number): number {
  return 100 - bodyWeightPct
}

/** Mass that the legs carry, kg. */
export function carriedKg(massKg: number, bodyWeightPct: number): number {
  return (massKg * bodyWeightPct) / 100
}

/** A pace as a watch shows it: 8.571 minutes is 8:34. */
export function paceWords(minutes: number): string {
  const seconds = Math.round(minutes * 60)
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`
}
