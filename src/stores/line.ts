import { createHash } from 'node:crypto'
import type { Sealed } from '../chart/chain.ts'
import type { Instant } from '../chart/day.ts'
import type { Notice } from '../chart/notices.ts'
import type { Outcome } from '../desk/ports.ts'
import type { Cover } from './cover.ts'

/** What a chart file holds: commits, and what became of the notices that they queued. `order` counts both, store-wide. */
export type Kept = KeptCommit | KeptOutcome
export type KeptCommit = {
  readonly order: number
  readonly entries: readonly Sealed[]
  readonly notices: readonly Notice[]
  readonly dueAt: Instant | null
  readonly open: boolean
}
export type KeptOutcome = { readonly order: number; readonly settled: string; readonly outcome: Outcome }

/**
 * One write is one line: `["<hash>",<body>]`. The hash is SHA-256 over the hash of the line before and the
 * body, so a line answers both for itself and for its place; the first line follows the name of its subject.
 * Everything that waits for the same write shares the line: either all of it was kept or none.
 */
export function lineOf(
  kept: readonly unknown[],
  before: string,
  cover: Cover,
): { text: string; hash: string } {
  return lineOfTexts(
    kept.map((each) => JSON.stringify(each)),
    before,
    cover,
  )
}

/** The same for what is JSON text already. */
export function lineOfTexts(
  texts: readonly string[],
  before: string,
  cover: Cover,
): { text: string; hash: string } {
  const body = cover.close(`[${texts.join(',')}]`)
  const hash = hashOfLine(before, body)
  return { text: `["${hash}",${body}]\n`, hash }
}

/** How far a file can be read, and how it ends. `size` is the length in bytes of the lines that can be trusted. */
export type Reading<T> = { kept: T[]; lines: number; hash: string; size: number; end: End }
export type End =
  | { readonly is: 'whole' }
  /** A write that did not finish, and was never acknowledged. */
  | { readonly is: 'torn'; readonly bytes: number }
  /** The last line is complete and lacks only its line end. */
  | { readonly is: 'unended' }
  | { readonly is: 'damaged'; readonly line: number; readonly why: string }

/** Reads the lines of a file, or of its rest behind a line with hash `before`. */
export function readLines<T>(bytes: Buffer, before: string, cover: Cover): Reading<T> {
  const reading: Reading<T> = { kept: [], lines: 0, hash: before, size: 0, end: { is: 'whole' } }
  while (reading.size < bytes.length) {
    const end = bytes.indexOf(lineEnd, reading.size)
    if (end === -1) return readRest(bytes.subarray(reading.size), reading, cover)
    const line = bytes.subarray(reading.size, end)
    if (!fits(line, reading.hash))
      return { ...reading, end: damaged(reading, 'it does not fit its own hash') }
    take(reading, line, cover)
    reading.size = end + 1
  }
  return reading
}

const lineEnd = 10
const hashLength = 43
const bodyAt = hashLength + 4

/** A rest without a line end is torn, unless all of a line is there: then somebody changed the line end itself. */
function readRest<T>(rest: Buffer, reading: Reading<T>, cover: Cover): Reading<T> {
  if (fits(rest, reading.hash)) {
    take(reading, rest, cover)
    return { ...reading, size: reading.size + rest.length, end: { is: 'unended' } }
  }
  if (fits(rest.subarray(0, -1), reading.hash))
    return { ...reading, end: damaged(reading, 'its line end was changed') }
  return { ...reading, end: { is: 'torn', bytes: rest.length } }
}

function fits(line: Buffer, before: string): boolean {
  if (line.length <= bodyAt || line.at(-1) !== 0x5d) return false
  const hash = hashOfLine(before, line.subarray(bodyAt, -1))
  return line.subarray(0, bodyAt).equals(Buffer.from(`["${hash}",`))
}

function take<T>(reading: Reading<T>, line: Buffer, cover: Cover) {
  const body = cover.open(line.toString('utf8', bodyAt, line.length - 1))
  for (const kept of JSON.parse(body) as T[]) reading.kept.push(kept)
  reading.hash = line.toString('latin1', 2, 2 + hashLength)
  reading.lines += 1
}

const damaged = (reading: Reading<unknown>, why: string): End => ({
  is: 'damaged',
  line: reading.lines + 1,
  why,
})

function hashOfLine(before: string, body: string | Buffer): string {
  return createHash('sha256').update(before).update('\n').update(body).digest('base64url')
}
