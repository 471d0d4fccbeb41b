import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Callee, CallTier } from '../chart/escalation.ts'
import type { Team } from '../chart/roster.ts'
import { isInHours, onCallNow, standInFor } from './rota.ts'

/**
 * Who is called about this athlete, in order: treating therapist, cover, whoever is on call, clinic lead, last
 * resort. Who is away is replaced by whoever stands in. Those who work now or are on call come first, so that a call
 * out of hours never waits for a sleeper or for the morning; the sleepers stay on the list behind them.
 */
export function callListFor(chart: Chart, tier: CallTier, team: Team, now: Instant): Callee[] {
  const { roster, clinic } = team
  const leads = [...roster.people.values()].filter((person) => person.roles.includes('clinic-lead'))
  const onCall = onCallNow(team, now)
  const order = [chart.enrolment?.therapist, chart.enrolment?.cover, onCall, ...leads.map((lead) => lead.id)]
  const here = order.flatMap((id) => (id === undefined ? [] : (standInFor(team, id, now) ?? [])))
  const awake = (id: string) => id === onCall || isInHours(team, id, now)
  const { person: last } = clinic.lastResort
  const first = [...new Set(here)].filter((id) => id !== last || awake(id))
  const people = [...first.filter(awake), ...first.filter((id) => !awake(id)), last]
  return [...new Set(people)].map((person) => ({
    person,
    ackWithinMinutes: clinic.calls[tier].ackWithinMinutes,
  }))
}

/** In confidence: the licensed person, whatever the hour, and nobody else. */
export function supportList(tier: CallTier, { clinic }: Team): Callee[] {
  return [{ person: clinic.support.licensed, ackWithinMinutes: clinic.calls[tier].ackWithinMinutes }]
}

/** Who hears that an alarm did not do what its list says. */
export function auditList({ clinic, roster }: Team): Callee[] {
  const leads = [...roster.people.values()].filter((p) => p.active && p.roles.includes('clinic-lead'))
  const people = new Set([...leads.map((lead) => lead.id), clinic.lastResort.person])
  return [...people].map((person) => ({ person, ackWithinMinutes: clinic.calls.urgent.ackWithinMinutes }))
}
