import { withEntries } from '../chart/chart.ts'
import { plusMinutes } from '../chart/day.ts'
import { type ClinicEntry, clinicSubject } from '../chart/roster.ts'
import { byRule } from '../rules/decision.ts'
import { listDue, nextDue, whatIsDue } from '../rules/due.ts'
import type { Desk } from './desk.ts'
import { isStoreTrouble } from './ports.ts'

/** The next morning may be a day and a change of the clocks away. */
const longestWaitMinutes = 26 * 60
const atOnce = 16

/**
 * One round: asks the rules what has come due and writes it down, with what it makes people hear. Missing a round
 * is harmless, the next finds the same work; doing one twice is doing it once. Returns how many charts it looked at.
 */
export async function makeRounds(desk: Desk): Promise<number> {
  await postList(desk)
  await applySettings(desk)
  const seen = new Set<string>()
  let next = await misdated(desk)
  do {
    for (const subject of next) seen.add(subject)
    await visitAll(desk, next)
    next = (await desk.store.due(desk.clock.now(), 500)).filter((subject) => !seen.has(subject))
  } while (next.length > 0)
  return seen.size
}

/** Several at a time, so that they share the disk's time. A chart that the store has closed keeps no other waiting. */
async function visitAll(desk: Desk, subjects: readonly string[]): Promise<void> {
  const left = subjects[Symbol.iterator]()
  const walk = async () => {
    for (const subject of left)
      await visit(desk, subject).catch((error) => {
        if (!isStoreTrouble(error)) throw error
        desk.report('chart-closed', { chart: subject, why: error.words })
      })
  }
  await Promise.all(Array.from({ length: atOnce }, walk))
}

/**
 * After settings were tightened every waiting chart is looked at once: what it waits for may come sooner than was noted.
 * Written down only then, so that a stop in between costs nothing but doing it again.
 */
async function applySettings(desk: Desk): Promise<void> {
  const before = (await desk.team()).roster.settingsToApply
  if (before === undefined) return
  const rows = await desk.store.index()
  await visitAll(
    desk,
    rows
      .filter(({ subject, dueAt }) => subject !== clinicSubject && dueAt !== null)
      .map(({ subject }) => subject),
  )
  const { roster } = await desk.team()
  const entry: ClinicEntry = {
    id: `${before}/in-force`,
    author: byRule,
    recordedAt: desk.clock.now(),
    kind: 'settings-in-force',
    settings: before,
  }
  await desk.store.commit({
    subject: clinicSubject,
    entries: [entry],
    notices: [],
    atLength: roster.length,
    dueAt: null,
    open: true,
  })
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
  if (athlete === clinicSubject) return desk.store.schedule(athlete, null, team.roster.length)
  const chart = await desk.charts.read(athlete)
  const now = desk.clock.now()
  const decision = whatIsDue(chart, team, now)
  const atLength = chart.entries.length
  if (decision.entries.length === 0 && decision.notices.length === 0)
    return desk.store.schedule(athlete, nextDue(chart, team, now), atLength)
  const after = withEntries(chart, decision.entries)
  const dueAt = nextDue(after, team, now)
  const outcome = await desk.store.commit({ subject: athlete, ...decision, atLength, dueAt, open: true })
  // A refusal means that somebody wrote in between: the subject stays due, and the next round looks again.
  if ('committed' in outcome) desk.charts.wrote(after)
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
