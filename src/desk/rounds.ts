import { withEntries } from '../chart/chart.ts'
import { plusMinutes } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import { listDue, nextDue, whatIsDue } from '../rules/due.ts'
import type { Desk } from './desk.ts'

/** The next morning may be a day and a change of the clocks away. */
const longestWaitMinutes = 26 * 60

/**
 * One round: asks the rules what has come due and writes it down, with what it makes people hear. Missing a round
 * is harmless, the next finds the same work; doing one twice is doing it once. Returns how many charts it looked at.
 */
export async function makeRounds(desk: Desk): Promise<number> {
  await postList(desk)
  const seen = new Set<string>(await misdated(desk))
  for (const subject of seen) await visit(desk, subject)
  let looked = seen.size
  for (;;) {
    const due = (await desk.store.due(desk.clock.now(), 500)).filter((subject) => !seen.has(subject))
    if (due.length === 0) return looked
    for (const subject of due) {
      seen.add(subject)
      if (subject !== clinicSubject) await visit(desk, subject)
      else await desk.store.schedule(subject, null, (await desk.team()).roster.length)
    }
    looked += due.length
  }
}

/**
 * Subjects whose due time cannot be trusted, because the host's clock was ahead when it was noted. When it was set
 * back under our eyes that is everybody; at a start it shows only in what waits for longer than any chart does.
 */
async function misdated({ store, clock, rounds }: Desk): Promise<readonly string[]> {
  const now = clock.now()
  const { latestAt } = rounds
  rounds.latestAt = now
  if (latestAt !== undefined && latestAt <= now) return []
  const trusted = latestAt === undefined ? plusMinutes(now, longestWaitMinutes) : now
  const rows = await store.index()
  return rows
    .filter(({ dueAt }) => typeof dueAt === 'string' && dueAt > trusted)
    .map(({ subject }) => subject)
}

async function visit(desk: Desk, athlete: string): Promise<void> {
  const team = await desk.team()
  const chart = await desk.charts.read(athlete)
  const now = desk.clock.now()
  const decision = whatIsDue(chart, team, now)
  const atLength = chart.entries.length
  if (decision.entries.length === 0 && decision.notices.length === 0)
    return desk.store.schedule(athlete, nextDue(chart, team, now), atLength)
  const dueAt = nextDue(withEntries(chart, decision.entries), team, now)
  // A refusal means that somebody wrote in between: the subject stays due, and the next round looks again.
  await desk.store.commit({ subject: athlete, ...decision, atLength, dueAt, open: true })
}

async function postList(desk: Desk): Promise<void> {
  const team = await desk.team()
  const due = listDue(team, desk.clock.now())
  if (!due) return
  const { entry, notice } = due
  const atLength = team.roster.length
  await desk.store.commit({
    subject: clinicSubject,
    entries: [entry],
    notices: [notice],
    atLength,
    dueAt: null,
    open: true,
  })
}
