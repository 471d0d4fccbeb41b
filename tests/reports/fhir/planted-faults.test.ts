import type { Bundle, CarePlan, Observation, Resource } from '@medplum/fhirtypes'
import { beforeAll, describe, expect, test } from 'vitest'
import { fhirBundle } from '../../../src/reports/fhir/bundle.ts'
import { twoWeeks } from '../record.ts'
import { conformance, type Judge, publishedSchema, structures } from './judges.ts'

let bundle: Bundle
const judges: [string, Judge][] = [
  ['the published R4 schema', publishedSchema()],
  ['a validator over the conformance resources', conformance()],
  ['a validator over the structure definitions', structures()],
]

beforeAll(async () => {
  const { chart, team, now } = await twoWeeks()
  bundle = fhirBundle(chart, team, now)
  for (const [name, judge] of judges) expect(judge(bundle), name).toEqual([])
})

const all = <T extends Resource['resourceType']>(type: T, of: Bundle) =>
  (of.entry ?? [])
    .map((entry) => entry.resource)
    .filter((r): r is Extract<Resource, { resourceType: T }> => r?.resourceType === type)

/** What a careless builder would do; each must be caught by at least two of the three. */
const faults: [string, (bundle: Bundle) => void][] = [
  ['a status that R4 does not have', (b) => Object.assign(first(b, 'Observation'), { status: 'done' })],
  ['a gender in one letter', (b) => Object.assign(first(b, 'Patient'), { gender: 'f' })],
  ['a plan without an intent', (b) => delete (first(b, 'CarePlan') as Partial<CarePlan>).intent],
  ['an element of our own', (b) => Object.assign(first(b, 'ServiceRequest'), { bodyWeightPct: 50 })],
  ['an instant that is no instant', (b) => Object.assign(first(b, 'Provenance'), { recorded: '2026-03-21' })],
  [
    'a number where words belong',
    (b) => Object.assign(first(b, 'Observation'), { valueString: 3, valueInteger: undefined }),
  ],
  ['a flag without a subject', (b) => Object.assign(first(b, 'Flag'), { subject: undefined })],
  [
    'a single thing where a list belongs',
    (b) => Object.assign(first(b, 'Condition'), { bodySite: { text: 'tibia' } }),
  ],
]

describe('planted faults', () => {
  for (const [name, plant] of faults)
    test(`${name} is caught by at least two judges`, () => {
      const spoilt = structuredClone(bundle)
      plant(spoilt)
      const text = JSON.parse(JSON.stringify(spoilt)) as Bundle
      const caught = judges.filter(([, judge]) => judge(text).length > 0).map(([judge]) => judge)
      expect(caught.length, caught.join(', ')).toBeGreaterThanOrEqual(2)
    })

  const [schema, codes, shapes] = ['schema', 'codes', 'shapes'] as const
  /** Faults in what tells of flags, calls, corrections and signatures, with the judges that see each. */
  const seenBy: [string, (typeof schema | typeof codes | typeof shapes)[], (bundle: Bundle) => void][] = [
    ['a flag with a status of our own', [schema, codes], (b) => set(b, 'Flag', { status: 'lifted' })],
    ['a flag without a code', [schema, codes, shapes], (b) => set(b, 'Flag', { code: undefined })],
    [
      'a flag whose time is a word',
      [schema, codes, shapes],
      (b) => set(b, 'Flag', { period: { start: 'spring' } }),
    ],
    ['a message without a status', [codes, shapes], (b) => set(b, 'Communication', { status: undefined })],
    ['a message that was "seen"', [codes], (b) => set(b, 'Communication', { status: 'seen' })],
    [
      'a message with one word in place of a list of them',
      [schema, codes, shapes],
      (b) => set(b, 'Communication', { payload: { contentString: 'x' } }),
    ],
    ['a signature of nothing', [schema, codes, shapes], (b) => set(b, 'Provenance', { target: undefined })],
    ['a signature by nobody', [schema, codes, shapes], (b) => set(b, 'Provenance', { agent: undefined })],
    [
      'a correction with a status of our own',
      [schema, codes],
      (b) => void Object.assign(amended(b), { status: 'struck' }),
    ],
    [
      'a struck answer sheet that is called wrong',
      [schema, codes],
      (b) => set(b, 'QuestionnaireResponse', { status: 'wrong' }),
    ],
  ]
  for (const [name, who, plant] of seenBy)
    test(`${name} is caught by: ${who.join(', ')}`, () => {
      const spoilt = structuredClone(bundle)
      plant(spoilt)
      const text = JSON.parse(JSON.stringify(spoilt)) as Bundle
      expect([schema, codes, shapes].filter((_, i) => (judges[i]?.[1](text) ?? []).length > 0)).toEqual(who)
    })

  test('a value that is there and absent at once is caught by the constraints', () => {
    const spoilt = structuredClone(bundle)
    const pain = observedIn(spoilt, 'worst-pain')
    Object.assign(pain, { dataAbsentReason: { text: 'unknown' } })
    const caught = judges.filter(([, judge]) => judge(spoilt).length > 0).map(([judge]) => judge)
    expect(caught).toContain('a validator over the structure definitions')
  })
})

function first(of: Bundle, type: Resource['resourceType']): object {
  const [found] = all(type, of)
  if (!found) throw new Error(`there is no ${type}`)
  return found
}

function set(of: Bundle, type: Resource['resourceType'], what: object): void {
  Object.assign(first(of, type), what)
}

/** A value that was written in place of one that was struck. */
function amended(of: Bundle): Observation {
  const found = all('Observation', of).find((one) => one.status === 'amended')
  if (!found) throw new Error('nothing was amended')
  return found
}

function observedIn(of: Bundle, code: string): Observation {
  const found = all('Observation', of).find(
    (one) => one.valueInteger !== undefined && one.code.coding?.some((coding) => coding.code === code),
  )
  if (!found) throw new Error(`nothing of ${code} was observed`)
  return found
}
