import type { Extension, Range as FhirRange } from '@medplum/fhirtypes'
import type { Bout, Range } from '../../chart/dose.ts'
import type { Rung } from '../../chart/ladder.ts'
import { type Dossier, quantity, type Unit } from './naming.ts'

/** A stretch of running for machines to read, beside the words for people: no resource of R4 has a place for it. */
export function boutExtension(dossier: Dossier, bout: Bout): Extension {
  return stretch(dossier, {
    ...bout,
    speed: bout.speedMps && { range: scaled(bout.speedMps, 3.6), unit: 'kmh' },
  })
}

/** A stretch of a rung, its speed in the unit in which the ladder was published. */
export function rungExtensions(dossier: Dossier, rung: Rung): Extension[] {
  return rung.bouts.map(({ speedMph, speedKmh, miles, ...bout }) =>
    stretch(dossier, {
      ...bout,
      bodyWeightPct: rung.bodyWeightPct,
      distanceM: miles && miles * 1609.344,
      speed: speedMph ? { range: speedMph, unit: 'mph' } : speedKmh && { range: speedKmh, unit: 'kmh' },
    }),
  )
}

type Stretch = {
  readonly gait: string
  readonly bodyWeightPct: number
  readonly inclinePct: number
  readonly repeats: Range
  readonly minutes?: Range | undefined
  readonly distanceM?: number | undefined
  readonly speed: { readonly range: Range; readonly unit: Unit } | undefined
}

function stretch({ team }: Dossier, one: Stretch): Extension {
  return {
    url: `${team.clinic.record.namespace}/StructureDefinition/stretch`,
    extension: [
      { url: 'gait', valueCode: one.gait },
      { url: 'bodyWeightCarried', valueQuantity: quantity(one.bodyWeightPct, 'percent') },
      { url: 'incline', valueQuantity: quantity(one.inclinePct, 'percent') },
      { url: 'repeats', valueRange: rangeOf(one.repeats, 'one') },
      ...(one.minutes ? [{ url: 'minutes', valueRange: rangeOf(one.minutes, 'minutes') }] : []),
      ...(one.distanceM ? [{ url: 'distance', valueQuantity: quantity(one.distanceM, 'metres') }] : []),
      ...(one.speed ? [{ url: 'speed', valueRange: rangeOf(one.speed.range, one.speed.unit) }] : []),
    ],
  }
}

function rangeOf({ low, high }: Range, unit: Unit): FhirRange {
  return { low: quantity(low, unit), high: quantity(high, unit) }
}

function scaled({ low, high }: Range, factor: number): Range {
  return { low: low * factor, high: high * factor }
}
