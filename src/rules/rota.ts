import { dayAt, type Instant, wallTimeAt, weekdayOf } from '../chart/day.ts'
import type { Cover, Person, Team } from '../chart/roster.ts'
import type { Refusal } from './decision.ts'

/** Whether somebody works now: on their own wall, not away, and the clinic not closed. */
export function isInHours(team: Team, person: string, now: Instant): boolean {
  const { clinic, roster } = team
  const found = roster.people.get(person)
  if (!found?.active || coverOf(team, person, now)) return false
  const day = dayAt(now, clinic.timeZone)
  if (roster.closed.some(({ from, until }) => from <= day && day <= until)) return false
  const wall = wallTimeAt(now, found.timeZone)
  const weekday = weekdayOf(dayAt(now, found.timeZone))
  return (found.hours ?? clinic.hours).some(
    ({ days, from, until }) => days.includes(weekday) && from <= wall && wall < until,
  )
}

/** Who covers somebody today, if they are away; of two that overlap the later one holds. */
export function coverOf(team: Team, person: string, now: Instant): Cover | undefined {
  const zone = team.roster.people.get(person)?.timeZone ?? team.clinic.timeZone
  const day = dayAt(now, zone)
  return team.roster.covers.findLast((c) => c.person === person && c.from <= day && day <= c.until)
}

/** Whoever stands in, following from cover to cover to somebody who is here; the person themselves when not away. */
export function standInFor(team: Team, person: string, now: Instant): string | undefined {
  const seen = new Set<string>()
  let who = person
  for (;;) {
    const cover = coverOf(team, who, now)
    if (!cover) return team.roster.people.get(who)?.active ? who : undefined
    // Two who cover each other cover nobody.
    if (seen.has(who)) return undefined
    seen.add(who)
    who = cover.coveredBy
  }
}

/** Whom this person stands in for today. */
export function coveredBy(team: Team, person: string, now: Instant): readonly string[] {
  const covered = [...new Set(team.roster.covers.map((cover) => cover.person))]
  return covered.filter((away) => away !== person && standInFor(team, away, now) === person)
}

/** Whoever is on call at the clinic today and still works here. */
export function onCallNow(team: Team, now: Instant): string | undefined {
  const day = dayAt(now, team.clinic.timeZone)
  return team.roster.onCall.findLast(
    ({ person, from, until }) =>
      from <= day && day <= until && team.roster.people.get(person)?.active && !coverOf(team, person, now),
  )?.person
}

/** Who can take a call at all. */
export function takesCalls(person: Person | undefined): person is Person {
  return Boolean(
    person?.active && (person.roles.includes('therapist') || person.roles.includes('clinic-lead')),
  )
}

/** A cover must be a colleague who takes calls, is not the same person, and the range must not run backwards. */
export function coverFault(team: Team, cover: Cover): Refusal | undefined {
  if (!takesCalls(team.roster.people.get(cover.person)))
    return {
      refused: 'unknown-person',
      words: 'Only a therapist or the clinic lead is covered.',
      field: 'person',
    }
  if (cover.person === cover.coveredBy)
    return { refused: 'same-person', words: 'Somebody else must stand in.', field: 'coveredBy' }
  if (!takesCalls(team.roster.people.get(cover.coveredBy)))
    return { refused: 'no-cover', words: 'The cover must be a therapist who works here.', field: 'coveredBy' }
  return rangeFault(cover)
}

export function onCallFault(
  team: Team,
  duty: { person: string; from: string; until: string },
): Refusal | undefined {
  if (!takesCalls(team.roster.people.get(duty.person)))
    return { refused: 'unknown-person', words: 'On call is a therapist or the clinic lead.', field: 'person' }
  return rangeFault(duty)
}

export function rangeFault({ from, until }: { from: string; until: string }): Refusal | undefined {
  return from <= until
    ? undefined
    : { refused: 'backwards', words: 'The last day is before the first.', field: 'until' }
}

/** The two whom the clinic's settings name cannot leave before others are named. */
export function mayChange(team: Team, person: Person): Refusal | undefined {
  const { lastResort, support } = team.clinic
  if (person.active) return undefined
  if (person.id === lastResort.person)
    return {
      refused: 'last-resort',
      words: 'This person is the last resort of every call. Name another in clinic.json first.',
    }
  if (person.id === support.licensed)
    return { refused: 'licensed', words: 'This is the licensed person. Name another in clinic.json first.' }
  return undefined
}

/** What keeps the bot from starting once people are known: nobody to call at the end of a list, or in confidence. */
export function startFault({ clinic, roster }: Team): string | undefined {
  // Until the first athlete is named the clinic is being set up, and set-up.ts says what is missing.
  if (![...roster.people.values()].some((person) => person.roles.includes('athlete'))) return undefined
  if (!roster.people.get(clinic.lastResort.person)?.active)
    return `clinic.json: lastResort.person: "${clinic.lastResort.person}" is nobody who works here.`
  return undefined
}
