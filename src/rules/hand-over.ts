import type { Escalation } from '../chart/calls.ts'
import type { Instant } from '../chart/day.ts'
import type { Person, Team } from '../chart/roster.ts'
import { redFlags } from './red-flags.ts'
import { coverOf, takesCalls } from './rota.ts'

/** Whether somebody may press: on the copied list, or handed the call by somebody who was. */
export function isOnList(e: Escalation, person: string): boolean {
  return (
    e.opened.callList.some((callee) => callee.person === person) ||
    e.handedOver.some((handed) => handed.to === person)
  )
}

/** Colleagues to whom this call can go: those whose specialities fit the flag first, then by name; nobody who is away. */
export function colleaguesFor(e: Escalation, by: string, team: Team, now: Instant): readonly Person[] {
  const findings = new Set<string>(e.because.map((reason) => reason.finding))
  const wanted = new Set(redFlags.filter((flag) => findings.has(flag.finding)).flatMap((flag) => flag.fits))
  const fits = (person: Person) => (person.specialities ?? []).filter((s) => wanted.has(s)).length
  return [...team.roster.people.values()]
    .filter((person) => takesCalls(person) && person.id !== by && !coverOf(team, person.id, now))
    .toSorted((a, b) => fits(b) - fits(a) || a.name.localeCompare(b.name))
}
