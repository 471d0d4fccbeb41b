import { existsSync, readdirSync } from 'node:fs'
import { basename, dirname, join, relative } from 'node:path'
import { type ZodType, z } from 'zod'
import { Clinic } from '../chart/clinic.ts'
import { CriteriaSet } from '../chart/criteria-set.ts'
import { Families } from '../chart/family.ts'
import { Ladder } from '../chart/ladder.ts'
import { MeasureKinds } from '../chart/measure-kind.ts'
import { Programme } from '../chart/programme.ts'
import { SetUpCard } from '../chart/set-up-card.ts'
import { faultsOf } from '../rules/ladder-check.ts'
import { sources } from '../science/sources.ts'
import { checkFile, faultAt } from './shared-file.ts'

type Path = readonly (string | number)[]
type Fault = { readonly at: Path; readonly words: string }
type Kind = {
  /** Where in a shared folder such files lie, with forward slashes. */
  readonly where: RegExp
  readonly schema: ZodType
  /** What the schema cannot say. */
  readonly also?: (parsed: never, folder: string) => readonly Fault[]
}

/** Every kind of file that a clinic's folder may hold; the first that fits reads it. */
const kinds: readonly Kind[] = [
  { where: /^clinic\.json$/, schema: Clinic },
  { where: /^protocols\/exercises\/[^/]+\.json$/, schema: Programme },
  { where: /^protocols\/[^/]+\.json$/, schema: Ladder, also: (ladder: Ladder) => faultsOf(ladder) },
  { where: /^criteria\/families\.json$/, schema: Families },
  { where: /^criteria\/measures\.json$/, schema: MeasureKinds },
  { where: /^criteria\/[^/]+\.json$/, schema: CriteriaSet, also: unknownMeasures },
  { where: /^words\/set-up-card\.json$/, schema: SetUpCard },
  { where: /^(words|tables|evidence|schemas)\/.+\.json$/, schema: z.json() },
]

const needed = ['clinic.json', 'criteria/families.json', 'criteria/measures.json', 'words/set-up-card.json']

/** Every fault of a clinic's folder as `file:line: what is wrong, and what is allowed`; empty when it can be used. */
export function faultsIn(folder: string): readonly string[] {
  const files = jsonUnder(folder)
  const absent = needed
    .filter((name) => !existsSync(join(folder, name)))
    .map((name) => `${join(folder, name)}:1: is missing; copy the shipped one and edit it`)
  return [...absent, ...files.flatMap((file) => faultsOfFile(file, folder)), ...twice(files, folder)]
}

function faultsOfFile(file: string, folder: string): readonly string[] {
  const name = nameIn(folder, file)
  const kind = kinds.find(({ where }) => where.test(name))
  if (!kind)
    return [`${file}:1: nobody reads a file here; allowed are protocols/, criteria/, words/ and clinic.json`]
  const outcome = checkFile(file, kind.schema)
  if ('faults' in outcome) return outcome.faults
  const more = [
    ...(kind.also?.(outcome.parsed as never, folder) ?? []),
    ...unknownSources(outcome.parsed, folder),
  ]
  return more.map(({ at, words }) => faultAt(file, at, words))
}

function unknownMeasures(set: CriteriaSet, folder: string): readonly Fault[] {
  const outcome = checkFile(join(folder, 'criteria', 'measures.json'), MeasureKinds)
  if ('faults' in outcome) return []
  const known = new Set(outcome.parsed.measures.map(({ measure }) => measure))
  return set.lines.flatMap((line, i) =>
    'measure' in line && !known.has(line.measure)
      ? [
          {
            at: ['lines', i, 'measure'],
            words: `no measure ${line.measure}; measures.json names what there is`,
          },
        ]
      : [],
  )
}

/** Every `source` and every key of a list of sources must be one that the list of sources explains. */
function unknownSources(parsed: unknown, folder: string): readonly Fault[] {
  const own = join(folder, 'evidence', 'sources.json')
  const outcome = existsSync(own) ? checkFile(own, z.record(z.string(), z.unknown())) : { parsed: sources }
  if ('faults' in outcome) return []
  const list = outcome.parsed
  return keysIn(parsed, []).flatMap(({ at, key }) =>
    key in list ? [] : [{ at, words: `no source ${key}; evidence/sources.json names what there is` }],
  )
}

function keysIn(node: unknown, at: Path): { at: Path; key: string }[] {
  if (typeof node !== 'object' || node === null) return []
  return Object.entries(node).flatMap(([name, child]) => {
    const path = [...at, Array.isArray(node) ? Number(name) : name]
    const isKey = name === 'source' || (name === 'key' && at.at(-2) === 'sources')
    return isKey && typeof child === 'string' ? [{ at: path, key: child }] : keysIn(child, path)
  })
}

/** Two files that carry the same id and version: a plan could not say which it was signed from. */
function twice(files: readonly string[], folder: string): readonly string[] {
  const seen = new Map<string, string>()
  return files.flatMap((file) => {
    const name = nameIn(folder, file)
    if (!/^(protocols|criteria)\//.test(name)) return []
    const outcome = checkFile(file, z.looseObject({ id: z.string(), version: z.number() }))
    if ('faults' in outcome) return []
    const key = `${dirname(name)}/${outcome.parsed.id}@${outcome.parsed.version}`
    const first = seen.get(key)
    if (first === undefined) {
      seen.set(key, basename(file))
      return []
    }
    return [
      faultAt(
        file,
        ['version'],
        `${first} is ${basename(key)} already; a changed file takes the next version`,
      ),
    ]
  })
}

function jsonUnder(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => join(folder, name))
}

function nameIn(folder: string, file: string): string {
  return relative(folder, file).replaceAll('\\', '/')
}
