import type { Instant } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import type { Notice } from '../chart/notices.ts'

/** What a rule wants: entries to write and people to tell. Only the desk does it. */
export type Decision = { readonly entries: readonly Entry[]; readonly notices: readonly Notice[] }

export const nothing: Decision = { entries: [], notices: [] }

export function both(...decisions: readonly Decision[]): Decision {
  return {
    entries: decisions.flatMap((decision) => decision.entries),
    notices: decisions.flatMap((decision) => decision.notices),
  }
}

/** A no, with words that say what to do next. `field` names the input at fault, where there is one. */
export type Refusal = { readonly refused: string; readonly words: string; readonly field?: string }

export function isRefusal(answer: object): answer is Refusal {
  return 'refused' in answer
}

/** The author of what a rule wrote. */
export const byRule = 'sanderling'

export function signed(athlete: string, id: string, now: Instant, author: string = byRule) {
  return { id, athlete, author, recordedAt: now }
}
