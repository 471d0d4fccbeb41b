import type { Sealed } from '../chart/chain.ts'
import type { Chart } from '../chart/chart.ts'
import type { Day, Instant } from '../chart/day.ts'
import type { Notice } from '../chart/notices.ts'
import type { Team } from '../chart/roster.ts'
import type { ClearedLine } from '../rules/cleared.ts'

/** The clock, an edge like any other: only the desk asks it, and hands the answer down. */
export interface Clock {
  now(): Instant
}

/**
 * Where charts and notices are kept. A subject is an athlete's id, or `clinic` for the clinic's own journal.
 * The store neither reads nor decides: entries are JSON objects with an `id`, in the order they were committed.
 */
export interface Store {
  /**
   * Entries from position `from` (default 0) on, sealed, oldest first; empty when there is no such chart. All of them
   * when the chart ends before `from`: it was erased since, and begins anew. Throws `StoreDamaged` when they are not
   * what was kept.
   */
  read(subject: string, from?: number): Promise<readonly Sealed[]>

  /**
   * Appends entries and queues notices, both or neither, durably before it answers. Refuses (`moved`) when the
   * chart no longer has `atLength` entries. A notice whose key was queued before is left alone.
   * Throws `StoreClosed` when the chart is closed for writing or the medium fails; then nothing was kept.
   */
  commit(commit: Commit): Promise<Committed | Moved>

  /**
   * Puts a tombstone in the place of a whole chart, for good: its entries, its waiting notices and what is remembered of
   * its postings are gone, and the chain begins anew. Refuses (`moved`) when the chart no longer has `atLength` entries.
   * Copies made elsewhere are not reached.
   */
  erase(subject: string, tombstone: Tombstone, atLength: number): Promise<Committed | Moved>

  /**
   * Puts tombstones in the place of single entries of a chart and one behind all of them, for good. The other entries
   * stay as they are, and the chain begins anew; notices of this chart to or about `naming` are gone. Refuses (`moved`)
   * when the chart no longer has `atLength` entries. Copies made elsewhere are not reached.
   */
  blank(subject: string, blanking: Blanking, atLength: number): Promise<Committed | Moved>

  /** Every subject, with what a round or a list needs to know without reading its chart. */
  index(): Promise<readonly IndexRow[]>

  /** Subjects whose `dueAt` is `now` or earlier, or not known, earliest first. */
  due(now: Instant, limit: number): Promise<readonly string[]>

  /** Notes when a subject is next due, after a look that wrote nothing. Ignored when the chart has moved on. */
  schedule(subject: string, dueAt: Instant | null, atLength: number): Promise<void>

  /**
   * Hands out up to `limit` notices that may be sent now: `notBefore` and a set retry time have passed, no earlier
   * notice of the same lane is unsettled, and nobody else holds them. They are held until `leaseUntil`. Calls first;
   * whoever rests is passed over.
   */
  claim(now: Instant, leaseUntil: Instant, limit: number, resting?: Resting): Promise<readonly Queued[]>

  /** Writes down what became of a claimed notice. Doing it twice is doing it once. */
  settle(key: string, outcome: Outcome): Promise<void>

  /** Where the message of a surface was posted last; undefined when none was. */
  receipt(surface: string): Promise<Receipt | undefined>

  /** Queued notices that are not settled yet. */
  waiting(): Promise<number>

  /** When the earliest waiting notice may next be tried, of those who do not rest; null when none waits. */
  nextTry(resting?: Resting): Promise<Instant | null>

  close(): Promise<void>
}

export type Commit = {
  readonly subject: string
  readonly entries: readonly EntryLike[]
  readonly notices: readonly Notice[]
  readonly atLength: number
  /** When the subject is next due; null when nothing will be due by itself. */
  readonly dueAt: Instant | null
  /** False when the episode is closed: the chart may stay on disk until somebody asks for it. */
  readonly open: boolean
}
export type EntryLike = { readonly id: string }
export type Tombstone = EntryLike & { readonly kind: 'erased' }
export type Blanking = {
  /** What takes the place of an entry, by its position. */
  readonly places: ReadonlyMap<number, Tombstone>
  readonly closing: Tombstone
  /** Whose id no notice of this chart may name any more. */
  readonly naming: string
}
export type Committed = { readonly committed: true; readonly length: number }
export type Moved = { readonly moved: true; readonly length: number }

export type IndexRow = {
  readonly subject: string
  readonly length: number
  readonly last: string
  readonly open: boolean
  /** undefined: not known, look now. */
  readonly dueAt: Instant | null | undefined
}

export type Receipt = { readonly channel: string; readonly ts: string }

/** A notice as it waits. `unknown`: a try went out and no answer came; look before sending again. */
export type Queued = { readonly notice: Notice; readonly tries: number; readonly unknown: boolean }

/** The lanes that are passed over just now, or everything that is not a call. */
export type Resting = ReadonlySet<string> | 'all but calls'

export type Outcome =
  | { readonly sent: Receipt; readonly at: Instant }
  | { readonly missed: string; readonly at: Instant }
  | { readonly retryAt: Instant; readonly why: string; readonly unknown: boolean }

/** The medium failed or the chart is closed for writing: nothing was kept. `words` may be shown to a person. */
export class StoreClosed extends Error {
  readonly words: string
  constructor(words: string, cause?: unknown) {
    super(words, { cause })
    this.name = 'StoreClosed'
    this.words = words
  }
}

/** Kept data is damaged: the process must not start on it. Names the file and line and the way to restore. */
export class StoreDamaged extends Error {
  readonly words: string
  constructor(words: string) {
    super(words)
    this.name = 'StoreDamaged'
    this.words = words
  }
}

/** The store said no, with words; anything else that is thrown is a bug. */
export function isStoreTrouble(error: unknown): error is StoreClosed | StoreDamaged {
  return error instanceof StoreClosed || error instanceof StoreDamaged
}

/** The way to people. It renders and sends; it never writes and never decides. */
export interface Face {
  /** Sends one notice, or updates the message of its surface. Never throws for what the platform answers. */
  deliver(told: Told): Promise<Delivery>
  /** Looks for a notice that may have gone out without an answer. `unsure` when the look itself failed. */
  find(told: Told): Promise<Receipt | 'absent' | 'unsure'>
}

/** A notice with what is needed to put it into words. */
export type Told = {
  readonly notice: Notice
  readonly team: Team
  readonly now: Instant
  /** The chart it is about; absent for notices about the clinic. */
  readonly chart: Chart | undefined
  /** Today's lines for the coaches, for notices that carry the list. */
  readonly list: readonly ClearedLine[]
  /** The message to update in place; absent when it is to be posted. */
  readonly receipt: Receipt | undefined
}

/** `never`: no later try can succeed (the account is gone). `unknown`: it may have gone out. */
export type Delivery =
  | { readonly sent: Receipt }
  | {
      readonly failed: string
      readonly outcome: 'never' | 'not sent' | 'unknown'
      readonly retryAfterSeconds?: number
    }

export type PictureName = 'pain-and-dose' | 'ladder' | 'week-load' | 'readiness'

/** A picture that was drawn; `alt` says the same in words. */
export type Drawn = {
  readonly name: PictureName
  readonly title: string
  readonly alt: string
  readonly png: Uint8Array
}

/** Draws what a chart says. Slow at the first call; throws when it cannot draw. */
export interface Pictures {
  /** Undefined when the chart has too little for this picture. */
  draw(name: PictureName, chart: Chart, today: Day): Promise<Drawn | undefined>
}
