import type { Chart } from '../chart/chart.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'

type CallList = EntryOf<'escalation-opened'>['callList']

/** Who is called about this athlete, in order: treating therapist, cover, clinic lead. Only people who are there. */
export function callListFor(chart: Chart, tier: 'emergency' | 'urgent', team: Team): CallList {
  const { ackWithinMinutes } = team.clinic.calls[tier]
  const leads = [...team.roster.people.values()].filter((person) => person.roles.includes('clinic-lead'))
  const order = [chart.enrolment?.therapist, chart.enrolment?.cover, ...leads.map((lead) => lead.id)]
  return [...new Set(order)]
    .filter((id): id is string => id !== undefined && team.roster.people.get(id)?.active === true)
    .map((person) => ({ person, ackWithinMinutes }))
}
