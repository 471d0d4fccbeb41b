import type { Chart } from '../chart/chart.ts'
import type { Entry } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { type Modal, modal, option, section, textInput } from './blocks.ts'
import { selectFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

/** What a person wrote and may have got wrong. Calls are closed, never struck; what rules wrote follows from these. */
const strikable: ReadonlySet<Entry['kind']> = new Set([
  'check-in',
  'session-done',
  'run-skipped',
  'exercise-done',
  'measure',
  'criteria-signed',
  'review',
  'clearance',
  'plan-signed',
  'episode',
])

/** The newest entries that can be struck out, newest first. */
export function strikeModal(chart: Chart, team: Team): Modal | undefined {
  const struck = new Set(chart.entries.flatMap((e) => (e.kind === 'amendment' ? [e.strikes] : [])))
  const options = chart.entries
    .filter((entry) => strikable.has(entry.kind) && !struck.has(entry.id) && entry.id.length <= 75)
    .slice(-100)
    .toReversed()
    .map((entry) => option(entry.id, labelOf(entry, team)))
  if (options.length === 0) return undefined
  const about = { athlete: chart.athlete }
  return modal({ door: 'strike', title: 'Strike out an entry', submit: 'Strike out', about }, [
    section('It stays legible in the record and counts for nothing any more. Today is decided anew.'),
    selectFrom({ name: 'strikes', label: 'Entry' }, options),
    textInput({ name: 'words', label: 'Reason' }),
  ])
}

export const strikeRead = reads(OfAthlete, async (_, form, { athlete }) => ({
  hands: [{ kind: 'amendment', athlete, strikes: form.choice('strikes'), words: form.text('words') ?? '' }],
}))

/** An entry in a few words: what, for which day, by whom. */
export function labelOf(entry: Entry, team: Team): string {
  const day = 'day' in entry ? entry.day : entry.recordedAt.slice(0, 10)
  const what = entry.kind === 'measure' ? `${entry.measure} ${entry.value}` : entry.kind.replaceAll('-', ' ')
  return `${day} ${what}, ${nameOf(team, entry.author)}`
}
