import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { findNodeAtLocation, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser'
import type { ZodType } from 'zod'
import { Clinic } from '../chart/clinic.ts'
import { Ladder } from '../chart/ladder.ts'
import { faultsOf } from '../rules/ladder-check.ts'
import { AlarmWords, type WordList, wordFaults, wordList } from '../rules/words.ts'

/** What clinicians agreed on and may edit, read once at the start. */
export type Library = {
  readonly clinic: Clinic
  /** The words that must reach a human. */
  readonly words: WordList
  /** Every ladder, newest version last. */
  readonly ladders: readonly Ladder[]
  /** By `id@version`, or by `id` alone for the newest. */
  ladder(id: string): Ladder | undefined
}

/** A shared file that cannot be used: `file:line: what is wrong`. */
export class SharedFault extends Error {
  override readonly name = 'SharedFault'
}

/** Reads a shared folder. Throws `SharedFault` naming file, line and what is allowed, at the first fault. */
export function openLibrary(folder: string): Library {
  const clinic = parseFile(join(folder, 'clinic.json'), Clinic)
  const protocols = join(folder, 'protocols')
  const ladders = readdirSync(protocols)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => readLadder(join(protocols, name)))
    .toSorted((a, b) => a.version - b.version)
  return {
    clinic,
    words: readWords(join(folder, 'words', 'alarms.json')),
    ladders,
    ladder: (id) => ladders.findLast((ladder) => ladder.id === id || `${ladder.id}@${ladder.version}` === id),
  }
}

/** An empty list, a pattern that cannot be read, or a topic without a row in the red flags: nothing starts. */
function readWords(file: string): WordList {
  const list = parseFile(file, AlarmWords)
  const fault = wordFaults(list)[0]
  if (fault) throw new SharedFault(`${file}:${lineOf(readFileSync(file, 'utf8'), fault.at)}: ${fault.words}`)
  return wordList(list)
}

function readLadder(file: string): Ladder {
  const ladder = parseFile(file, Ladder)
  const fault = faultsOf(ladder)[0]
  if (fault)
    throw new SharedFault(
      `${file}:${lineOf(readFileSync(file, 'utf8'), fault.at)}: example fails: ${fault.words}`,
    )
  return ladder
}

function parseFile<T>(file: string, schema: ZodType<T>): T {
  const text = readFileSync(file, 'utf8')
  const errors: ParseError[] = []
  parseTree(text, errors)
  const broken = errors[0]
  if (broken)
    throw new SharedFault(`${file}:${lineAt(text, broken.offset)}: ${printParseErrorCode(broken.error)}`)
  const parsed = schema.safeParse(JSON.parse(text))
  if (parsed.success) return parsed.data
  const issue = parsed.error.issues[0]
  const path = (issue?.path ?? []).map((key) => (typeof key === 'symbol' ? key.toString() : key))
  throw new SharedFault(`${file}:${lineOf(text, path)}: ${path.join('.')}: ${issue?.message}`)
}

/** The line of the innermost part of a path that is there. */
function lineOf(text: string, path: readonly (string | number)[]): number {
  const tree = parseTree(text)
  for (let depth = path.length; tree && depth > 0; depth -= 1) {
    const node = findNodeAtLocation(tree, path.slice(0, depth))
    if (node) return lineAt(text, (node.parent?.type === 'property' ? node.parent : node).offset)
  }
  return 1
}

function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length
}
