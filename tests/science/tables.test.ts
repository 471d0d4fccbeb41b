import { readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, test } from 'vitest'
import { CitedCurve, CitedNumber, CitedSpan } from '../../src/science/cited.ts'
import { sources } from '../../src/science/sources.ts'

const folder = resolve(import.meta.dirname, '../../shared/tables')
const tables = readdirSync(folder).filter((name) => name.endsWith('.json'))

type Cited = { path: string; label: string; source: string }

/** Every number in a table, however deep; throws at a number that stands without a source. */
function citedIn(node: unknown, path: string): Cited[] {
  if (typeof node === 'number') throw new Error(`${path} is a number without a source`)
  if (typeof node !== 'object' || node === null) return []
  if ('value' in node) {
    const { source, label } = node as { source?: unknown; label?: unknown }
    if (typeof source !== 'string' || typeof label !== 'string')
      throw new Error(`${path} has no source or label`)
    return [{ path, source, label }]
  }
  return Object.entries(node).flatMap(([key, child]) => citedIn(child, `${path}.${key}`))
}

describe('every number in every table names a known source and how it was come by', () => {
  test.each(tables)('%s', (name) => {
    const cited = citedIn(JSON.parse(readFileSync(resolve(folder, name), 'utf8')), name)
    expect(cited.length).toBeGreaterThan(0)
    for (const { path, source, label } of cited) {
      expect(sources[source], path).toBeDefined()
      if (label === 'read') expect(sources[source]?.seen, `${path} says read`).not.toBe('memory')
      if (sources[source]?.seen === 'memory')
        expect(label, `${path} leans on a source nobody saw`).toBe('memory')
    }
  })

  test('and one that did not would be found', () => {
    expect(() => citedIn({ a: { b: 3 } }, 'planted')).toThrow('planted.a.b')
    expect(() => citedIn({ a: { value: 3 } }, 'planted')).toThrow('planted.a')
  })
})

test('a table with an unknown source, a falling curve or an upturned span is refused by name', () => {
  const origin = { source: 'acsm-2020', label: 'read', validity: 'x' }
  expect(CitedNumber.safeParse({ value: 1, ...origin }).success).toBe(true)
  expect(CitedNumber.safeParse({ value: 1, ...origin, source: 'hearsay' }).error?.message).toContain(
    'hearsay',
  )
  expect(
    CitedCurve.safeParse({
      value: [
        [2, 1],
        [1, 1],
      ],
      ...origin,
    }).success,
  ).toBe(false)
  expect(CitedSpan.safeParse({ value: [2, 1], ...origin }).success).toBe(false)
})

test('the remembered numbers are these, and no others', () => {
  const remembered = tables.flatMap((name) =>
    citedIn(JSON.parse(readFileSync(resolve(folder, name), 'utf8')), name).filter(
      ({ label }) => label === 'memory',
    ),
  )
  expect(remembered.map(({ path }) => path)).toEqual([
    'scores.json.questionnaires.ikdc-from-1.bounds',
    'scores.json.questionnaires.wellness-4.bounds',
    'scores.json.timedHopInverted',
    'tissue.json.bone.exponent',
    'tissue.json.cartilage.exponent',
  ])
})

test('every source of the clinical evidence has its key, each once', () => {
  const keys = Object.values(sources).flatMap(({ evidenceKey }) =>
    evidenceKey === undefined ? [] : [evidenceKey],
  )
  expect(new Set(keys).size).toBe(keys.length)
  for (const key of ['S1', 'S9', 'S20', 'S31', 'S52', 'S63', 'S83']) expect(keys).toContain(key)
})
