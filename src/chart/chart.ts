import { afterEntry, type CallEntry, type Escalation, openedBy } from './calls.ts'
import type { CheckIn } from './check-in.ts'
import type { Clearance } from './clearance.ts'
import type { Day } from './day.ts'
import type { Entry, EntryOf } from './entries.ts'
import type { Measure } from './measure.ts'
import type { Prescription } from './prescription.ts'
import type { SessionDone } from './session.ts'
import { struckBy } from './struck.ts'

export type { Escalation } from './calls.ts'

/** What is known of one athlete, folded from the entries. */
export type Chart = {
  readonly athlete: string
  /** All of them, struck ones too. */
  readonly entries: readonly Entry[]
  readonly ids: ReadonlySet<string>
  readonly enrolment: EntryOf<'enrolment'> | undefined
  readonly episode: EntryOf<'episode'> | undefined
  readonly plan: EntryOf<'plan-signed'> | undefined
  readonly clearance: Clearance | undefined
  readonly prompts: ReadonlySet<Day>
  /** Days on which the question was put a second time. */
  readonly reminders: ReadonlySet<Day>
  readonly missed: ReadonlyMap<Day, EntryOf<'check-in-missed'>>
  /** In order of recording; at most one a day. */
  readonly checkIns: readonly CheckIn[]
  readonly prescriptions: readonly Prescription[]
  readonly sessions: readonly SessionDone[]
  /** Days on which a prescribed run was said not to have been run. */
  readonly skipped: ReadonlySet<Day>
  readonly exercises: readonly EntryOf<'exercise-done'>[]
  readonly measures: readonly Measure[]
  readonly criteriaSigned: readonly EntryOf<'criteria-signed'>[]
  readonly reviews: readonly EntryOf<'review'>[]
  /** Clearances whose lapse was written down. */
  readonly lapsed: ReadonlySet<string>
  /** Ids of holds that a therapist lifted. */
  readonly lifted: ReadonlySet<string>
  /** Holds that nobody has lifted. */
  readonly holds: readonly EntryOf<'hold'>[]
  readonly escalations: readonly Escalation[]
}

/** Reads a chart from its entries, oldest first. An entry that an amendment strikes counts for nothing. */
export function readChart(athlete: string, entries: readonly Entry[]): Chart {
  const struck = struckBy(entries)
  const page = blank(athlete, entries)
  for (const entry of entries) if (!struck?.has(entry.id)) turnPage(page, entry)
  return page
}

/** The chart as it will read once these entries stand in it too. */
export function withEntries(chart: Chart, more: readonly Entry[]): Chart {
  return more.length === 0 ? chart : readChart(chart.athlete, [...chart.entries, ...more])
}

/** The open escalations about the athlete, oldest first: while one is open there is no running. */
export function openEscalations(chart: Chart): readonly Escalation[] {
  return chart.escalations.filter((escalation) => !escalation.closed && escalation.concern !== 'audit')
}

/** Everything that rings, the auditor's own calls too. */
export function openCalls(chart: Chart): readonly Escalation[] {
  return chart.escalations.filter((escalation) => !escalation.closed)
}

export function checkInOf(chart: Chart, day: Day): CheckIn | undefined {
  return chart.checkIns.findLast((checkIn) => checkIn.day === day)
}

/** The prescription in force on a day: the last one written for it. */
export function prescriptionOf(chart: Chart, day: Day): Prescription | undefined {
  return chart.prescriptions.findLast((prescription) => prescription.day === day)
}

export function sessionOf(chart: Chart, day: Day): SessionDone | undefined {
  return chart.sessions.findLast((session) => session.day === day)
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] }
type Page = Mutable<
  Omit<
    Chart,
    | 'ids'
    | 'prompts'
    | 'reminders'
    | 'missed'
    | 'checkIns'
    | 'prescriptions'
    | 'sessions'
    | 'skipped'
    | 'exercises'
    | 'measures'
    | 'criteriaSigned'
    | 'reviews'
    | 'lapsed'
    | 'lifted'
    | 'holds'
    | 'escalations'
  >
> & {
  readonly ids: ReadonlySet<string>
  prompts: Set<Day>
  reminders: Set<Day>
  missed: Map<Day, EntryOf<'check-in-missed'>>
  checkIns: CheckIn[]
  prescriptions: Prescription[]
  sessions: SessionDone[]
  skipped: Set<Day>
  exercises: EntryOf<'exercise-done'>[]
  measures: Measure[]
  criteriaSigned: EntryOf<'criteria-signed'>[]
  reviews: EntryOf<'review'>[]
  lapsed: Set<string>
  lifted: Set<string>
  holds: EntryOf<'hold'>[]
  escalations: Escalation[]
}

function blank(athlete: string, entries: readonly Entry[]): Page {
  let ids: Set<string> | undefined
  return {
    athlete,
    entries,
    // Made when somebody asks: a set of a whole season costs as much as the rest of the reading.
    get ids() {
      ids ??= new Set(entries.map(({ id }) => id))
      return ids
    },
    enrolment: undefined,
    episode: undefined,
    plan: undefined,
    clearance: undefined,
    prompts: new Set(),
    reminders: new Set(),
    missed: new Map(),
    checkIns: [],
    prescriptions: [],
    sessions: [],
    skipped: new Set(),
    exercises: [],
    measures: [],
    criteriaSigned: [],
    reviews: [],
    lapsed: new Set(),
    lifted: new Set(),
    holds: [],
    escalations: [],
  }
}

/** Writes into the page in hand: it was made by `readChart` for this reading and nobody else holds it yet. */
function turnPage(page: Page, entry: Entry): void {
  switch (entry.kind) {
    case 'enrolment':
      page.enrolment = entry
      return
    case 'episode':
      page.episode = entry
      return
    case 'plan-signed':
      page.plan = entry
      return
    case 'clearance':
      page.clearance = entry
      return
    case 'prompt':
      page.prompts.add(entry.day)
      return
    case 'check-in-reminded':
      page.reminders.add(entry.day)
      return
    case 'check-in':
      page.checkIns.push(entry)
      return
    case 'check-in-missed':
      page.missed.set(entry.day, entry)
      return
    case 'prescription':
      page.prescriptions.push(entry)
      return
    case 'session-done':
      page.sessions.push(entry)
      return
    case 'measure':
      page.measures.push(entry)
      return
    case 'run-skipped':
      page.skipped.add(entry.day)
      return
    case 'exercise-done':
      page.exercises.push(entry)
      return
    case 'criteria-signed':
      page.criteriaSigned.push(entry)
      return
    case 'review':
      page.reviews.push(entry)
      return
    case 'clearance-lapsed':
      page.lapsed.add(entry.clearance)
      return
    case 'hold':
      page.holds.push(entry)
      return
    case 'hold-lifted':
      page.holds = page.holds.filter((hold) => hold.id !== entry.hold)
      page.lifted.add(entry.hold)
      return
    case 'escalation-opened':
      page.escalations.push(openedBy(entry))
      return
    case 'escalation-updated':
    case 'call-made':
    case 'call-sent':
    case 'call-delivered':
    case 'call-failed':
    case 'call-acknowledged':
    case 'handed-over':
    case 'reminded':
    case 're-listed':
    case 'breach':
    case 'escalation-closed':
      changeEscalation(page, entry)
      return
    case 'typed-message':
    case 'amendment':
    case 'amendment-request-reminded':
    case 'amendment-request':
    case 'amendment-request-extended':
    case 'amendment-request-answered':
    case 'disagreement-stated':
    case 'exported':
    case 'erased':
      return
    default:
      entry satisfies never
  }
}

function changeEscalation(page: Page, entry: CallEntry): void {
  page.escalations = page.escalations.map((escalation) =>
    escalation.id === entry.escalation ? afterEntry(escalation, entry) : escalation,
  )
}
