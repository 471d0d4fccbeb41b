import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { Clinic } from '../chart/clinic.ts'
import { CriteriaSet } from '../chart/criteria-set.ts'
import { Families } from '../chart/family.ts'
import { Ladder } from '../chart/ladder.ts'
import { type MeasureKind, MeasureKinds } from '../chart/measure-kind.ts'
import { Programme } from '../chart/programme.ts'
import { SetUpCard } from '../chart/set-up-card.ts'
import { faultsOf } from '../rules/ladder-check.ts'
import type { Shelf } from '../rules/shelf.ts'
import { AlarmWords, type WordList, wordFaults, wordList } from '../rules/words.ts'
import { faultAt, parseFile, SharedFault } from './shared-file.ts'

/** What clinicians agreed on and may edit, read once at the start. */
export type Library = Shelf & {
  readonly clinic: Clinic
  /** Every ladder, newest version last. */
  readonly ladders: readonly Ladder[]
  readonly programmes: readonly Programme[]
  readonly measureKinds: readonly MeasureKind[]
  readonly setUpCard: SetUpCard
}

/** Reads a shared folder. Throws `SharedFault` naming file, line and what is allowed, at the first fault. */
export function openLibrary(folder: string): Library {
  const clinic = parseFile(join(folder, 'clinic.json'), Clinic)
  const ladders = newestLast(jsonIn(join(folder, 'protocols')).map(readLadder))
  const programmes = newestLast(
    jsonIn(join(folder, 'protocols', 'exercises')).map((file) => parseFile(file, Programme)),
  )
  const criteria = join(folder, 'criteria')
  const families = parseFile(join(criteria, 'families.json'), Families)
  const kinds = parseFile(join(criteria, 'measures.json'), MeasureKinds).measures
  const kindsById = new Map(kinds.map((kind) => [kind.measure, kind]))
  const sets = newestLast(
    jsonIn(criteria)
      .filter((file) => !/(families|measures)\.json$/.test(file))
      .map((file) => readCriteria(file, kindsById)),
  )
  return {
    clinic,
    words: readWords(join(folder, 'words', 'alarms.json')),
    ladders,
    programmes,
    measureKinds: kinds,
    setUpCard: parseFile(join(folder, 'words', 'set-up-card.json'), SetUpCard),
    criteriaSets: sets,
    ladder: (id) => found(ladders, id),
    programme: (id) => found(programmes, id),
    criteria: (id) => found(sets, id),
    measure: (id) => kindsById.get(id),
    family: (tissue) => families[tissue],
  }
}

/** An empty list, a pattern that cannot be read, or a topic without a row in the red flags: nothing starts. */
function readWords(file: string): WordList {
  const list = parseFile(file, AlarmWords)
  const fault = wordFaults(list)[0]
  if (fault) throw new SharedFault(faultAt(file, fault.at, fault.words))
  return wordList(list)
}

function readLadder(file: string): Ladder {
  const ladder = parseFile(file, Ladder)
  const fault = faultsOf(ladder)[0]
  if (fault) throw new SharedFault(faultAt(file, fault.at, fault.words))
  return ladder
}

function readCriteria(file: string, kinds: ReadonlyMap<string, unknown>): CriteriaSet {
  const set = parseFile(file, CriteriaSet)
  const at = set.lines.findIndex((line) => 'measure' in line && !kinds.has(line.measure))
  if (at >= 0)
    throw new SharedFault(
      faultAt(file, ['lines', at, 'measure'], 'no such measure; measures.json names them'),
    )
  return set
}

function jsonIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => join(folder, name))
}

type Versioned = { readonly id: string; readonly version: number }

function newestLast<T extends Versioned>(all: readonly T[]): readonly T[] {
  return all.toSorted((a, b) => a.version - b.version)
}

function found<T extends Versioned>(all: readonly T[], id: string): T | undefined {
  return all.findLast((one) => one.id === id || `${one.id}@${one.version}` === id)
}
