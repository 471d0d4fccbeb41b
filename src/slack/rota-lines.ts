import { dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { escaped } from './blocks.ts'

/** What is agreed from today on, one line each with the id under which it can be withdrawn. */
export function rotaLines(
  team: Team,
  now: Instant,
): readonly { readonly id: string; readonly words: string }[] {
  const { covers, onCall, closed } = team.roster
  const today = dayAt(now, team.clinic.timeZone)
  const name = (person: string) => escaped(nameOf(team, person))
  return [
    ...covers.map((one) => ({ ...one, words: `${name(one.coveredBy)} stands in for ${name(one.person)}` })),
    ...onCall.map((one) => ({ ...one, words: `${name(one.person)} is on call` })),
    ...closed.map((one) => ({ ...one, words: `the clinic is closed (${escaped(one.words)})` })),
  ]
    .filter(({ until }) => until >= today)
    .map(({ id, from, until, words }) => ({ id, words: `${from} to ${until}: ${words}` }))
}

/** The lines alone, for whoever may not withdraw them. */
export function rotaInWords(team: Team, now: Instant): string {
  const lines = rotaLines(team, now).map(({ words }) => `• ${words}`)
  return lines.slice(0, 20).join('\n') || 'Nobody is away.'
}
