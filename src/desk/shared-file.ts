import { existsSync, readFileSync } from 'node:fs'
import { findNodeAtLocation, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser'
import type { ZodError, ZodType } from 'zod'

/** A shared file that cannot be used: `file:line: what is wrong`. */
export class SharedFault extends Error {
  override readonly name = 'SharedFault'
}

type Path = readonly (string | number)[]

/** Reads a JSON file. Throws `SharedFault` at the first fault. */
export function parseFile<T>(file: string, schema: ZodType<T>): T {
  const outcome = checkFile(file, schema)
  if ('parsed' in outcome) return outcome.parsed
  throw new SharedFault(outcome.faults[0])
}

/** The file as it reads, or every fault in it with its line. */
export function checkFile<T>(
  file: string,
  schema: ZodType<T>,
): { readonly parsed: T } | { readonly faults: readonly string[] } {
  if (!existsSync(file)) return { faults: [`${file}:1: there is no such file`] }
  const text = readFileSync(file, 'utf8')
  const errors: ParseError[] = []
  parseTree(text, errors)
  if (errors.length > 0)
    return {
      faults: errors.map((e) => `${file}:${lineAt(text, e.offset)}: ${wordsFor(e)}`),
    }
  const parsed = schema.safeParse(JSON.parse(text))
  return parsed.success
    ? { parsed: parsed.data }
    : { faults: parsed.error.issues.map((issue) => issueWords(file, text, issue)) }
}

/** What is wrong with the writing itself, for somebody who edits such a file by hand. */
function wordsFor({ error }: ParseError): string {
  const name = printParseErrorCode(error)
  const words: Readonly<Record<string, string>> = {
    InvalidSymbol: 'this is no JSON; words stand in quotation marks',
    InvalidNumberFormat: 'this is no number as JSON writes it',
    PropertyNameExpected: 'a name in quotation marks is expected; is there a comma too many before it?',
    ValueExpected: 'a value is expected; is there a comma too many before it?',
    ColonExpected: 'a colon is expected between a name and its value',
    CommaExpected: 'a comma is expected, perhaps at the end of the line before',
    CloseBraceExpected: 'a closing } is expected',
    CloseBracketExpected: 'a closing ] is expected',
    EndOfFileExpected: 'the file should have ended before this',
    UnexpectedEndOfString: 'a closing quotation mark is expected',
  }
  return words[name] ?? name
}

/** `file:line: words` for a place in a file that reads well. */
export function faultAt(file: string, path: Path, words: string): string {
  return `${file}:${lineOf(readFileSync(file, 'utf8'), path)}: ${path.join('.')}: ${words}`
}

function issueWords(file: string, text: string, issue: ZodError['issues'][number]): string {
  const path = issue.path.map((key) => (typeof key === 'symbol' ? key.toString() : key))
  const where = path.length > 0 ? `${path.join('.')}: ` : ''
  return `${file}:${lineOf(text, path)}: ${where}${issue.message}`
}

/** The line of the innermost part of a path that is there. */
function lineOf(text: string, path: Path): number {
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
