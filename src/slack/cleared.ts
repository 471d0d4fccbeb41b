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

export function lineInWords(line: ClearedLine): string {
  const load = line.ceiling ? `: ${ceilingInWords(line.ceiling)}` : ''
  const until = line.until ? ` Cleared for ${line.state} until ${line.until}.` : ''
  return `*${escaped(line.name)}*: ${line.today}${load}.${until}`
}
