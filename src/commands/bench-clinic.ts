import { type Day, plusDays } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import type { Store } from '../desk/ports.ts'
import type { Season } from './season.ts'
import { atOnce } from './signed-post.ts'

export const signingSecret = '0123456789abcdef0123456789abcdef'
export const botToken = 'xoxb-loopback'

export const accountOf = (i: number) => `UATHLETE${i}`
export const athleteOf = (i: number) => `athlete-${i}`

/** Fills a store with a clinic: the people of a season, and so many athletes with its history. */
export async function fillClinic(
  store: Store,
  season: Season,
  athletes: {
    readonly count: number
    readonly open: boolean
    readonly dueAt: string | null
    readonly from?: number
  },
): Promise<void> {
  const { count, open, dueAt, from = 0 } = athletes
  const people = Array.from({ length: count }, (_, i) => ({
    id: `person/athlete/${from + i}`,
    author: 'sunniva',
    recordedAt: '2026-01-01T00:00:00.000Z',
    kind: 'person',
    person: {
      id: athleteOf(from + i),
      name: `Athlete ${from + i}`,
      roles: ['athlete'],
      chatUser: accountOf(from + i),
      timeZone: 'UTC',
      active: true,
    },
  }))
  const atLength = (await store.read(clinicSubject)).length
  const journal = atLength === 0 ? [...season.people, ...people] : people
  await store.commit({
    subject: clinicSubject,
    entries: journal as { id: string }[],
    notices: [],
    atLength,
    dueAt: null,
    open: true,
  })
  await atOnce(16, async (i) => {
    if (i >= count) return false
    const subject = athleteOf(from + i)
    await store.commit({ subject, entries: season.entriesOf(subject), notices: [], atLength: 0, dueAt, open })
    return true
  })
}

/** Today as the charts of these clinics count it: all live in UTC. */
export const today = (): Day => new Date().toISOString().slice(0, 10)

export const tomorrowMorning = (): string => `${plusDays(today(), 1)}T06:30:00.000Z`
