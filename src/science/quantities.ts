import { metresPerMinuteAsPublished } from './metabolic.ts'
import { type Refusal, refuse } from './refusal.ts'
import { cmPerInch, kgPerPound, mpsFromKmh, mpsFromMinPerKm, mpsFromMinPerMile, mpsFromMph } from './units.ts'

/**
 * Reads what people type, always with its unit: a bare number is refused, because 7 mph and 7 km/h are
 * two different runs, and 80 % carried and 80 % lifted two different loads.
 */

/** `metresPerMinute` follows the 26.8 per mph of the published equations when the speed was given in miles. */
export type Speed = { readonly speedMps: number; readonly metresPerMinute: number }

export function readSpeed(text: string): Speed | Refusal {
  const speed = SPEED.exec(text.trim())
  const pace = PACE.exec(text.trim())
  const inMiles = (mph: number): Speed => ({
    speedMps: mpsFromMph(mph),
    metresPerMinute: metresPerMinuteAsPublished(mph),
  })
  const inMetres = (speedMps: number): Speed => ({ speedMps, metresPerMinute: speedMps * 60 })
  if (speed !== null) {
    const number = Number(speed[1])
    const unit = String(speed[2]).toLowerCase()
    if (number > 0)
      return unit === 'mph' ? inMiles(number) : inMetres(unit === 'm/s' ? number : mpsFromKmh(number))
  }
  if (pace !== null) {
    const minutes = Number(pace[1]) + Number(pace[2] ?? 0) / 60
    const perMile = String(pace[3]).toLowerCase() === 'mile'
    if (minutes > 0)
      return perMile
        ? { ...inMiles(60 / minutes), speedMps: mpsFromMinPerMile(minutes) }
        : inMetres(mpsFromMinPerKm(minutes))
  }
  return unreadable('A speed', text, "'7 mph', '11.3 km/h', '3.1 m/s', '5:20 min/km' or '8:30 min/mile'")
}

/** Percent, always written with its sign. */
export function readPct(text: string, what: string): number | Refusal {
  const number = numberWith(/^(-?\d+(?:\.\d+)?)\s*%$/, text)
  return number ?? unreadable(what, text, "a percentage with its sign, such as '65%'")
}

export function readMassKg(text: string): number | Refusal {
  const kg = numberWith(/^(\d+(?:\.\d+)?)\s*kg$/i, text)
  const pounds = numberWith(/^(\d+(?:\.\d+)?)\s*(?:lb|lbs)$/i, text)
  return kg ?? (pounds === undefined ? unreadable('A mass', text, "'70kg' or '154 lb'") : pounds * kgPerPound)
}

export function readHeightCm(text: string): number | Refusal {
  const cm = numberWith(/^(\d+(?:\.\d+)?)\s*cm$/i, text)
  const metres = numberWith(/^(\d+(?:\.\d+)?)\s*m$/i, text)
  const inches = numberWith(/^(\d+(?:\.\d+)?)\s*in$/i, text)
  if (cm !== undefined) return cm
  if (metres !== undefined) return metres * 100
  return inches === undefined
    ? unreadable('A height', text, "'178cm', '1.78 m' or '70 in'")
    : inches * cmPerInch
}

export function readCadenceSpm(text: string): number | Refusal {
  return (
    numberWith(/^(\d+(?:\.\d+)?)\s*spm$/i, text) ??
    unreadable('A cadence', text, "steps a minute, such as '168 spm'")
  )
}

/** Minutes are the unit of a bout: '12' and '12 min' are both read. */
export function readMinutes(text: string): number | Refusal {
  return (
    numberWith(/^(\d+(?:\.\d+)?)\s*(?:min)?$/i, text) ??
    unreadable('A duration', text, "minutes, such as '12' or '12 min'")
  )
}

const SPEED = /^(\d+(?:\.\d+)?)\s*(mph|km\/h|kmh|kph|m\/s)$/i
const PACE = /^(\d+(?:\.\d+)?)(?::([0-5]\d))?\s*min\s*\/\s*(km|mile)$/i

const numberWith = (pattern: RegExp, text: string): number | undefined => {
  const found = pattern.exec(text.trim())
  return found === null ? undefined : Number(found[1])
}

const unreadable = (what: string, text: string, accepted: string): Refusal =>
  refuse('unreadable', `${what} needs its unit: ${accepted} is accepted, "${text}" is not.`)
