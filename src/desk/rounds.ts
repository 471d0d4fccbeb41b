import { withEntries } from '../chart/chart.ts'
import { clinicSubject } from '../chart/roster.ts'
import { listDue, nextDue, whatIsDue } from '../rules/due.ts'
import type { Desk } from './desk.ts'

/**
 * One round: asks the rules what has come due and writes it down, with what it makes people hear. Missing a round
 * is harmless, the next finds the same work; doing one twice is doing it once. Returns how many charts it looked at.
 */
export async function makeRounds(desk: Desk): Promise<number> {
  await postList(desk)
  let looked = 0
  const seen = new Set<string>()
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
