import type { Person, Team } from '../chart/roster.ts'
import type { Refusal } from '../rules/decision.ts'

/**
 * Whom the words after a command name: a mention, an id of ours, or part of a name. Undefined when nobody was named;
 * a refusal when it is nobody, or more than one.
 */
export function personNamed(said: string, team: Team): Person | Refusal | undefined {
  const text = said.trim()
  if (text === '') return undefined
  const account = /^<@([A-Z0-9]+)(\|[^>]*)?>$/.exec(text)?.[1]
  const everybody = [...team.roster.people.values()]
  const wanted = text.toLowerCase()
  const exact = account
    ? team.roster.byAccount.get(account)
    : everybody.find((one) => one.id === wanted || one.name.toLowerCase() === wanted)
  if (exact) return exact
  const found = account ? [] : everybody.filter((one) => one.name.toLowerCase().includes(wanted))
  if (found.length === 1 && found[0]) return found[0]
  return {
    refused: 'unknown-person',
    words:
      found.length > 1
        ? `That could be ${found
            .slice(0, 5)
            .map((one) => one.name)
            .join(', ')}. Please write the whole name.`
        : 'I know nobody of that name. Please mention the person with @.',
  }
}
