import { supportTopics } from '../chart/alarm-words.ts'
import { type Chart, readChart } from '../chart/chart.ts'
import type { Entry } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { isSpoken } from '../rules/note.ts'

/**
 * The chart as it may leave the clinic in this reader's hands. What was said in confidence goes to the athlete and to
 * the licensed person only: for everybody else the calls about the mind, and the words that raised them, are left out;
 * the hold that came of one stays, without its reason. The clinic's audit of its own calls is left out for all.
 */
export function asHandedTo(reader: string, chart: Chart, { clinic }: Team): Chart {
  const trusted = reader === chart.athlete || reader === clinic.support.licensed
  const leftOut = new Set(
    chart.entries.flatMap((entry) =>
      entry.kind === 'escalation-opened' &&
      (entry.concern === 'audit' || (entry.concern === 'support' && !trusted))
        ? [entry.id]
        : [],
    ),
  )
  const unnamed = new Map(
    chart.entries
      .filter((entry) => entry.kind === 'hold' && leftOut.has(entry.about))
      .map((hold, i) => [hold.id, `hold/${chart.athlete}/care-team/${i + 1}`] as const),
  )
  const entries = chart.entries.flatMap((entry): Entry[] => {
    if (leftOut.has(entry.id) || ('escalation' in entry && leftOut.has(entry.escalation))) return []
    const id = unnamed.get(entry.kind === 'hold-lifted' ? entry.hold : entry.id)
    if (entry.kind === 'hold' && id) return [{ ...entry, id, about: id, because: [unsaid] }]
    if (entry.kind === 'hold-lifted' && id) return [{ ...entry, hold: id, words: 'Lifted by the care team.' }]
    return [trusted ? entry : withoutConfidence(entry)]
  })
  return readChart(chart.athlete, entries)
}

const unsaid = { finding: 'care-team', words: 'On hold by the care team.', source: 'therapist' }

function withoutConfidence(entry: Entry): Entry {
  if (!isSpoken(entry)) return entry
  const heard = entry.heard?.filter(({ topic }) => !supportTopics.has(topic))
  if (heard === undefined || heard.length === entry.heard?.length) return entry
  const { note: _inConfidence, heard: _all, ...rest } = entry
  return { ...rest, heard } as Entry
}
