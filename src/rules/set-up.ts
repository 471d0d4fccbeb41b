import { nameOf, type Role, type Team } from '../chart/roster.ts'
import type { Refusal } from './decision.ts'
import type { ClinicSubmission } from './submissions.ts'

/** What is missing before an athlete can be enrolled, so before anybody is written to. Empty when all is there. */
export function missingFor(team: Team): readonly string[] {
  const { clinic, roster } = team
  const isThere = (role: Role) =>
    [...roster.people.values()].some((person) => person.active && person.roles.includes(role))
  const { person, phone } = clinic.lastResort
  const { support } = clinic
  return [
    ...(isThere('clinic-lead') ? [] : ['a clinic lead']),
    ...(isThere('therapist') ? [] : ['a therapist']),
    ...(roster.coachesChannel ? [] : ["the coaches' channel"]),
    ...(roster.people.get(person)?.active
      ? []
      : [`the last resort of the call list: clinic.json names "${nameOf(team, person)}" (${phone})`]),
    ...(roster.people.get(support.licensed)?.active
      ? []
      : [`the licensed person for what is said in confidence: clinic.json names "${support.licensed}"`]),
  ]
}

/** Nobody is enrolled, so no athlete is written to, before the clinic is complete. */
export function notSetUp(team: Team): Refusal | undefined {
  const missing = missingFor(team)
  if (missing.length === 0) return undefined
  return {
    refused: 'not-set-up',
    words: `The clinic is not set up yet, so no athlete is written to. Missing: ${missing.join('; ')}.`,
    field: 'athlete',
  }
}

/**
 * Whether this names the very first person. Only while the journal is empty may somebody make themselves clinic lead;
 * afterwards only a clinic lead names people.
 */
export function founds(submission: ClinicSubmission, by: string, team: Team): boolean {
  return (
    team.roster.length === 0 &&
    submission.kind === 'person' &&
    submission.person.id === by &&
    submission.person.active &&
    submission.person.roles.includes('clinic-lead')
  )
}
