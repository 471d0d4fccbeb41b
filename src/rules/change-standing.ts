import { type Chart, withEntries } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { redecide } from './check-in.ts'
import { listChanged, tellCoaches } from './cleared.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { isRepeated } from './repeated.ts'

type Change = Extract<
  Entry,
  {
    kind:
      | 'measure'
      | 'criteria-signed'
      | 'review'
      | 'enrolment'
      | 'episode'
      | 'plan-signed'
      | 'clearance'
      | 'hold'
      | 'hold-lifted'
      | 'amendment'
  }
>
type Unsigned<E> = E extends unknown ? Omit<E, 'id' | 'author' | 'recordedAt'> : never

/**
 * A therapist's entry that changes what the athlete may do. Athlete and coaches hear of it in the same minute, and
 * a prescription that is out for today and not run yet is decided anew under what now holds. Not after a hold was
 * lifted: then the next morning's answer decides.
 */
export function changeStanding(
  chart: Chart,
  unsigned: Unsigned<Change>,
  by: string,
  team: Team,
  now: Instant,
): Decision {
  if (isRepeated(chart, unsigned, by, now)) return nothing
  const id = unsigned.kind === 'hold' ? unsigned.about : numbered(chart, unsigned.kind)
  const entry = { ...unsigned, ...signed(chart.athlete, id, now, by) } as Change
  const after = withEntries(chart, [entry])
  return both(
    { entries: [entry], notices: [] },
    tellAthlete(entry, now),
    entry.kind === 'hold-lifted' ? nothing : redecide(after, team, now),
    changesClearance.has(entry.kind) ? tellCoaches(after, entry.id, team, now) : nothing,
    listChanged(after, team, now),
  )
}

const changesClearance: ReadonlySet<string> = new Set(['clearance', 'hold', 'hold-lifted'])

/** Measures, criteria, reviews, the episode and the striking of an entry are the therapist's own business. */
const untold: ReadonlySet<string> = new Set(['measure', 'criteria-signed', 'review', 'episode', 'amendment'])

export function tellAthlete(entry: Change, now: Instant): Decision {
  if (untold.has(entry.kind)) return nothing
  const { athlete, id } = entry
  const notice = {
    key: `${id}/told`,
    kind: 'told' as const,
    to: { person: athlete },
    athlete,
    about: id,
    queuedAt: now,
  }
  return { entries: [], notices: [notice] }
}

export function numbered(chart: Chart, kind: string): string {
  const prefix = `${kind}/${chart.athlete}/`
  let number = 1
  while (chart.ids.has(`${prefix}${number}`)) number += 1
  return `${prefix}${number}`
}
