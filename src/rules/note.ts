import { supportTopics } from '../chart/alarm-words.ts'
import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Entry, EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { type Decision, nothing } from './decision.ts'
import { quietUntil } from './quiet-hours.ts'

/** Something the treating therapist should see, without ringing: held back by quiet hours. */
export function noteTo(chart: Chart, about: string, now: Instant, team: Team): Decision {
  const person = chart.enrolment?.therapist
  return person ? noteFor(person, chart, { about, key: `${about}/note` }, team, now) : nothing
}

/** The same in confidence: to the licensed person and to nobody else. */
export function noteInConfidence(chart: Chart, about: string, now: Instant, team: Team): Decision {
  return noteFor(
    team.clinic.support.licensed,
    chart,
    { about, key: `${about}/note-in-confidence` },
    team,
    now,
  )
}

/** What somebody's own words can stand in, and be listened to. */
export type Spoken = EntryOf<'check-in' | 'session-done' | 'exercise-done' | 'typed-message'>

export function isSpoken(entry: Entry): entry is Spoken {
  return ['check-in', 'session-done', 'exercise-done', 'typed-message'].includes(entry.kind)
}

/**
 * Somebody's own words, for a reader. Words of mood, eating or self-harm are for their author and the licensed
 * person only; whoever else reads the entry sees that something was said to that colleague, and no more.
 */
export function wordsFor(
  entry: Pick<Spoken, 'note' | 'heard' | 'athlete'>,
  reader: string,
  team: Team,
): string | undefined {
  if (!entry.note) return undefined
  const inConfidence = entry.heard?.some(({ topic }) => supportTopics.has(topic))
  if (!inConfidence || reader === entry.athlete || reader === team.clinic.support.licensed) return entry.note
  return undefined
}

/** To one person, once for a key. */
export function noteFor(
  person: string,
  chart: Chart,
  { about, key }: { readonly about: string; readonly key: string },
  team: Team,
  now: Instant,
): Decision {
  const notBefore = quietUntil(team, person, now)
  const notice = {
    key,
    kind: 'note' as const,
    to: { person },
    athlete: chart.athlete,
    about,
    queuedAt: now,
  }
  return { entries: [], notices: [notBefore ? { ...notice, notBefore } : notice] }
}
