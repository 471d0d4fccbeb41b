import type { LineStanding } from '../rules/criteria.ts'
import { escaped } from './blocks.ts'

/** One line each: what stands, since when, and what is only shown. */
export function linesInWords(lines: readonly LineStanding[]): string {
  return lines
    .map(({ line, status, value, day, expires }) => {
      const found = value === undefined ? '' : `, ${Number(value.toFixed(1))}${day ? ` on ${day}` : ''}`
      const until = expires && status !== 'expired' ? `, counts until ${expires}` : ''
      const shown = line.gates ? '' : ' (shown, decides nothing)'
      return `• *${status}*: ${escaped(line.words)}${found}${until}${shown} [${line.source}]`
    })
    .join('\n')
}
