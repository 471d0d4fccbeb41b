import type { EntryOf } from './entries.ts'
import type { CallTier, Concern } from './escalation.ts'
import type { Because } from './signing.ts'

/** A red flag on its way to a human, as its entries tell it. */
export type Escalation = {
  readonly id: string
  readonly opened: EntryOf<'escalation-opened'>
  readonly concern: Concern
  /** The worst so far. */
  readonly tier: CallTier
  /** What is known of the event now, the latest update included. */
  readonly because: readonly Because[]
  readonly updates: readonly EntryOf<'escalation-updated'>[]
  readonly calls: readonly EntryOf<'call-made'>[]
  /** Numbers of the calls that the platform took, that stand in the conversation, that can never arrive. */
  readonly sent: ReadonlyMap<number, EntryOf<'call-sent'>>
  readonly delivered: ReadonlyMap<number, EntryOf<'call-delivered'>>
  readonly failed: ReadonlyMap<number, EntryOf<'call-failed'>>
  /** Whoever has it now; undefined again after a hand-over, a worse sign, or when it went back on the list. */
  readonly acknowledged: EntryOf<'call-acknowledged'> | undefined
  readonly acknowledgements: readonly EntryOf<'call-acknowledged'>[]
  readonly handedOver: readonly EntryOf<'handed-over'>[]
  /** The reminder to whoever has it now. */
  readonly reminded: EntryOf<'reminded'> | undefined
  readonly reListed: readonly EntryOf<'re-listed'>[]
  readonly breaches: readonly EntryOf<'breach'>[]
  readonly closed: EntryOf<'escalation-closed'> | undefined
}

export type CallEntry = EntryOf<
  | 'escalation-updated'
  | 'call-made'
  | 'call-sent'
  | 'call-delivered'
  | 'call-failed'
  | 'call-acknowledged'
  | 'handed-over'
  | 'reminded'
  | 're-listed'
  | 'breach'
  | 'escalation-closed'
>

export function openedBy(opened: EntryOf<'escalation-opened'>): Escalation {
  return {
    id: opened.id,
    opened,
    concern: opened.concern,
    tier: opened.tier,
    because: opened.because,
    updates: [],
    calls: [],
    sent: new Map(),
    delivered: new Map(),
    failed: new Map(),
    acknowledged: undefined,
    acknowledgements: [],
    handedOver: [],
    reminded: undefined,
    reListed: [],
    breaches: [],
    closed: undefined,
  }
}

/** The escalation as it stands after one more of its entries. */
export function afterEntry(e: Escalation, entry: CallEntry): Escalation {
  const free = { acknowledged: undefined, reminded: undefined }
  switch (entry.kind) {
    case 'escalation-updated': {
      const tier = e.tier === 'emergency' ? e.tier : entry.tier
      const updates = [...e.updates, entry]
      return { ...e, ...(entry.worse ? free : {}), updates, tier, because: merged(e.because, entry.because) }
    }
    case 'call-made':
      return { ...e, calls: [...e.calls, entry] }
    case 'call-sent':
      return { ...e, sent: new Map([...e.sent, [entry.call, entry]]) }
    case 'call-delivered':
      return { ...e, delivered: new Map([...e.delivered, [entry.call, entry]]) }
    case 'call-failed':
      return { ...e, failed: new Map([...e.failed, [entry.call, entry]]) }
    case 'call-acknowledged':
      return {
        ...e,
        acknowledged: e.acknowledged ?? entry,
        acknowledgements: [...e.acknowledgements, entry],
      }
    case 'handed-over':
      return { ...e, ...free, handedOver: [...e.handedOver, entry] }
    case 'reminded':
      return { ...e, reminded: entry }
    case 're-listed':
      return { ...e, ...free, reListed: [...e.reListed, entry] }
    case 'breach':
      return { ...e, breaches: [...e.breaches, entry] }
    case 'escalation-closed':
      return { ...e, closed: entry }
    default:
      return entry satisfies never
  }
}

function merged(before: readonly Because[], now: readonly Because[]): readonly Because[] {
  const known = new Set(before.map((reason) => reason.finding))
  return [...before, ...now.filter((reason) => !known.has(reason.finding))]
}
