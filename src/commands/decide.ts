import { Instant } from '../chart/day.ts'
import { readRoster, type Team } from '../chart/roster.ts'
import { ChartFault, chartAt, readEntries } from '../desk/chart-file.ts'
import { openLibrary } from '../desk/library.ts'
import { SharedFault } from '../desk/shared-file.ts'
import { isRefusal as cannot } from '../rules/decision.ts'
import { whatIf } from '../rules/what-if.ts'
import { type Decided, decide } from '../rules/why.ts'
import { isRefusal, refuse } from '../science/refusal.ts'
import { doseInWords } from '../slack/words.ts'
import { readOptions, turnAway } from './options.ts'

const options = {
  chart: { type: 'string' },
  at: { type: 'string' },
  json: { type: 'boolean', default: false },
  'what-if': { type: 'string', multiple: true },
  shared: { type: 'string', default: 'shared' },
} as const

/**
 * `decide --chart FILE --at INSTANT [--json] [--what-if 'worst-pain=3']`: what the rules decide, and why. The JSON
 * holds `disposition`, `move`, `prescription` (or null) and `because`; with what-if two of them, `today` and `whatIf`.
 */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const typed = readOptions(argv, options)
  if (isRefusal(typed)) return turnAway(typed)
  if (!typed.chart || !typed.at)
    return turnAway(refuse('say-more', 'Say --chart FILE --at 2026-03-16T07:00:00Z.'))
  const at = instantFrom(typed.at)
  if (!at) return turnAway(refuse('unreadable', '--at takes an instant such as 2026-03-16T07:00:00Z.'))
  try {
    const { clinic } = openLibrary(typed.shared)
    const team: Team = { clinic, roster: readRoster([]) }
    const chart = chartAt(readEntries(typed.chart), at)
    const today = decide(chart, team, at)
    let other: Decided | undefined
    if (typed['what-if']) {
      let changed = chart
      for (const change of typed['what-if']) {
        const next = whatIf(changed, change, at)
        if (cannot(next)) return turnAway(refuse('unreadable', next.words))
        changed = next
      }
      other = decide(changed, team, at)
    }
    if (typed.json) out(JSON.stringify(other ? { today, whatIf: other } : today, null, 2))
    else {
      for (const line of inWords(today)) out(line)
      if (other)
        for (const line of ['', `If ${typed['what-if']?.join(' and ')}:`, ...inWords(other)]) out(line)
    }
    return 0
  } catch (error) {
    if (error instanceof ChartFault || error instanceof SharedFault)
      return turnAway(refuse('unreadable', error.message))
    throw error
  }
}

/** Any instant with a zone; undefined when it is none. */
function instantFrom(text: string): Instant | undefined {
  const zoned = /(Z|[+-]\d\d:\d\d)$/.test(text) && !Number.isNaN(Date.parse(text))
  return zoned ? Instant.parse(new Date(text).toISOString()) : undefined
}

function inWords({ disposition, move, prescription, because }: Decided): string[] {
  return [
    `disposition: ${disposition}`,
    `move: ${move}`,
    ...(prescription ? prescriptionInWords(prescription) : ['prescription: none']),
    'because:',
    ...because.map(({ finding, words, source }) => `  ${finding}: ${words} [${source}]`),
  ]
}

function prescriptionInWords(prescription: NonNullable<Decided['prescription']>): string[] {
  const { what, rung, ladder, dose, programme, restUntil } = prescription
  return [
    `prescription: ${what}, rung ${rung} of ${ladder}`,
    ...(restUntil ? [`  no run up to and including ${restUntil}`] : []),
    ...(dose ? doseInWords(dose).map((line) => `  ${line}`) : []),
    ...(programme ? [`  exercises: ${programme}`] : []),
  ]
}
