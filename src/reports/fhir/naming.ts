import { createHash } from 'node:crypto'
import type { CodeableConcept, Coding, Quantity, Reference, Resource } from '@medplum/fhirtypes'
import type { Chart } from '../../chart/chart.ts'
import type { Day, Instant } from '../../chart/day.ts'
import type { Entry, EntryOf } from '../../chart/entries.ts'
import { nameOf, type Team } from '../../chart/roster.ts'
import { byRule } from '../../rules/decision.ts'
import type { Shelf } from '../../rules/shelf.ts'
import { type LocalCode, localCodes } from './local-codes.ts'

/** What every builder of a resource needs: the chart as it is handed on, the clinic, and what was struck. */
export type Dossier = {
  readonly chart: Chart
  readonly team: Team
  readonly now: Instant
  readonly today: Day
  /** Measures as clinicians agreed on them; without it a measure goes out by its name, without a unit. */
  readonly shelf: Pick<Shelf, 'measure'> | undefined
  readonly struck: ReadonlyMap<string, EntryOf<'amendment'>>
}

/** A resource with the key that its id comes from, and the entry that it rests on. */
export type Page = { readonly key: Key; readonly resource: Resource; readonly from?: Entry }

/** `Type/name`: the type of the resource, then what makes it this one. */
export type Key = `${Resource['resourceType']}/${string}`

/** The same cause gives the same id in every export, so taking one in twice is taking it in once (UUID version 5). */
export function uuidOf({ team }: Dossier, key: string): string {
  const urlNamespace = Buffer.from('6ba7b8119dad11d180b400c04fd430c8', 'hex')
  const hash = createHash('sha1')
    .update(urlNamespace)
    .update(`${team.clinic.record.namespace}/${key}`)
    .digest()
  hash[6] = ((hash[6] ?? 0) & 0x0f) | 0x50
  hash[8] = ((hash[8] ?? 0) & 0x3f) | 0x80
  return hash.toString('hex', 0, 16).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5')
}

type Of<T> = Extract<Resource, { resourceType: T }>

/** A reference inside the bundle; the compiler knows which type of resource the key leads to. */
export function refTo<T extends Resource['resourceType']>(
  dossier: Dossier,
  key: `${T}/${string}`,
): Reference<Of<T>> {
  return { reference: `urn:uuid:${uuidOf(dossier, key)}` }
}

export function patientKey({ chart }: Dossier): `Patient/${string}` {
  return `Patient/${chart.athlete}`
}

type PersonKey = `${'Patient' | 'Practitioner'}/${string}`

/** The athlete, or a person of the clinic. */
export function personKey({ chart }: Dossier, person: string): PersonKey {
  return person === chart.athlete ? `Patient/${person}` : `Practitioner/${person}`
}

export function personRef(dossier: Dossier, person: string) {
  return { ...refTo(dossier, personKey(dossier, person)), display: nameOf(dossier.team, person) }
}

/** Whoever signed: a person, or a rule of the bot. */
export function signerRef(dossier: Dossier, author: string) {
  if (author !== byRule) return personRef(dossier, author)
  return { ...refTo(dossier, `Device/${author}`), display: 'Sanderling' }
}

/** Who observed: a person, or nobody when a rule wrote down that there was nothing to observe. */
export function performers(dossier: Dossier, author: string) {
  return author === byRule ? {} : { performer: [personRef(dossier, author)] }
}

export function localSystem({ team }: Dossier): string {
  return `${team.clinic.record.namespace}/CodeSystem/record`
}

/** A code of our own, for what no published code is certain of. */
export function local(dossier: Dossier, code: LocalCode): Coding {
  return { system: localSystem(dossier), code, display: localCodes[code].display }
}

/** A concept by local code, with the published codes that are certain before it. */
export function concept(dossier: Dossier, code: LocalCode, ...published: readonly Coding[]): CodeableConcept {
  return { coding: [...published, local(dossier, code)], text: localCodes[code].display }
}

/** LOINC codes that were seen in a source (loinc-pain, loinc-vitals, fhir-physical-activity). */
export const loinc = {
  pain: { system: 'http://loinc.org', code: '72514-3' },
  bodyWeight: { system: 'http://loinc.org', code: '29463-7', display: 'Body weight' },
  bodyHeight: { system: 'http://loinc.org', code: '8302-2', display: 'Body height' },
  bodyTemperature: { system: 'http://loinc.org', code: '8310-5', display: 'Body temperature' },
  exerciseDuration: { system: 'http://loinc.org', code: '55411-3' },
} as const satisfies Record<string, Coding>

/** UCUM (ucum). The text "mph" stays text: as a code it would be a unit of light, so miles per hour go out as [mi_i]/h (A11). */
const ucum = {
  kg: { unit: 'kg', code: 'kg' },
  cm: { unit: 'cm', code: 'cm' },
  metres: { unit: 'm', code: 'm' },
  kmh: { unit: 'km/h', code: 'km/h' },
  mph: { unit: 'mph', code: '[mi_i]/h' },
  celsius: { unit: '°C', code: 'Cel' },
  minutes: { unit: 'min', code: 'min' },
  percent: { unit: '%', code: '%' },
  seconds: { unit: 's', code: 's' },
  degrees: { unit: 'degrees', code: 'deg' },
  mmhg: { unit: 'mmHg', code: 'mm[Hg]' },
  one: { unit: '1', code: '1' },
} as const
export type Unit = keyof typeof ucum

export function quantity(value: number, unit: Unit): Quantity {
  const rounded = Number(value.toFixed(3))
  return { value: rounded, system: 'http://unitsofmeasure.org', ...ucum[unit] }
}

export function terminology(system: string, code: string): Coding {
  return { system: `http://terminology.hl7.org/CodeSystem/${system}`, code }
}
