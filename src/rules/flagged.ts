import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { tellCoaches } from './cleared.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { raise } from './escalation.ts'
import { noteInConfidence, noteTo } from './note.ts'
import { rings, type Triage } from './triage.ts'

/**
 * What flags lead to, wherever they were found: a call and a hold, a note and a hold, or a note. What was written by
 * hand is shown to the therapist even when no list knows its words; what is said in confidence goes another way.
 */
export function onFlags(
  chart: Chart,
  about: string,
  found: Triage & { readonly said: boolean },
  team: Team,
  now: Instant,
): Decision {
  const body = onBody(chart, about, found, team, now)
  const support = onSupport(chart, about, found.support, team, now)
  const held = [...body.entries, ...support.entries].some((entry) => entry.kind === 'hold')
  return both(body, support, held ? tellCoaches(chart, `hold/${about}`, team, now) : nothing)
}

function onBody(
  chart: Chart,
  about: string,
  { flags, hold, because, support, said }: Triage & { readonly said: boolean },
  team: Team,
  now: Instant,
): Decision {
  const [worst] = flags
  if (worst && rings(worst.tier))
    return raise(chart, { concern: 'body', about, tier: worst.tier, because }, team, now)
  const seen = flags.length > 0 || (said && !support) ? noteTo(chart, about, now, team) : nothing
  if (!hold) return seen
  const held: EntryOf<'hold'> = {
    ...signed(chart.athlete, `hold/${about}`, now),
    kind: 'hold',
    about,
    because: [...because],
  }
  const told = {
    key: `${held.id}/told`,
    kind: 'told' as const,
    to: { person: chart.athlete },
    athlete: chart.athlete,
    about: held.id,
    queuedAt: now,
  }
  return both({ entries: [held], notices: [told] }, seen)
}

function onSupport(
  chart: Chart,
  about: string,
  support: Triage['support'],
  team: Team,
  now: Instant,
): Decision {
  if (!support) return nothing
  if (rings(support.tier))
    return raise(
      chart,
      { concern: 'support', about, tier: support.tier, because: support.because },
      team,
      now,
    )
  const kind = 'support' as const
  const { athlete } = chart
  const message = { key: `${about}/support`, kind, to: { person: athlete }, athlete, about, queuedAt: now }
  return both({ entries: [], notices: [message] }, noteInConfidence(chart, about, now, team))
}
