import type { Team } from '../chart/roster.ts'
import type { ClearedLine } from '../rules/cleared.ts'
import { context, escaped, header, type Message, section } from './blocks.ts'
import { ceilingInWords } from './words.ts'

/** The coaches' list: who, today's state, at what load, until when. Nothing medical can get in here. */
export function listMessage(lines: readonly ClearedLine[], day: string, team: Team): Message {
  const rows =
    lines.length === 0 ? ['Nobody is enrolled and shared with coaches yet.'] : lines.map(lineInWords)
  return {
    text: 'The list for today is here.',
    blocks: [
      header(`Who runs today, ${day}`),
      ...rows.slice(0, 40).map((row) => section(row)),
      ...(rows.length > 40
        ? [section(`and ${rows.length - 40} more cleared or not: ask me who is cleared`)]
        : []),
      context(`${escaped(team.clinic.name)}. Questions about a clearance go to the therapist.`),
    ],
  }
}

/** One athlete's clearance, for a coach who is told at once that it changed. */
export function clearedMessage(line: ClearedLine | undefined): Message {
  return {
    text: 'A clearance has changed.',
    blocks: [
      section(
        line ? lineInWords(line) : 'A clearance has changed; the athlete no longer shares it with coaches.',
      ),
    ],
  }
}

/** So many fit an answer that is read on a phone. */
const mostAnswered = 25

/**
 * Who is cleared, on demand: everybody, or those whose name has these words in it, or whose state of today or on the way
 * begins with them ("waiting", "not cleared", "ground running").
 */
export function clearedAnswer(lines: readonly ClearedLine[], said: string, command: string): string {
  const wanted = said.trim().toLowerCase()
  const found = lines.filter(
    ({ name, today, state }) =>
      name.toLowerCase().includes(wanted) || today.startsWith(wanted) || state.startsWith(wanted),
  )
  if (lines.length === 0) return 'No athlete shares a clearance with you. Ask the treating therapist.'
  if (found.length === 0)
    return `Nobody of those who share with you has "${escaped(said.trim().slice(0, 100))}" as name or state. ${command} alone shows all.`
  const more = found.length - mostAnswered
  return [
    ...found.slice(0, mostAnswered).map(lineInWords),
    ...(more > 0 ? [`and ${more} more: say a name or a state after ${command}`] : []),
  ].join('\n')
}

export function lineInWords(line: ClearedLine): string {
  const load = line.ceiling ? `: ${ceilingInWords(line.ceiling)}` : ''
  const again = line.today === 'not cleared today' ? 'Otherwise cleared' : 'Cleared'
  const until = line.until ? ` ${again} for ${line.state} until ${line.until}.` : ''
  return `*${escaped(line.name)}*: ${line.today}${load}.${until}`
}
