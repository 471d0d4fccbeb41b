import { type Chart, checkInOf, withEntries } from '../chart/chart.ts'
import { type Day, dayAt, type Instant, instantAt, plusDays, plusMinutes } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { nextRequest, requestsDue } from './amend-request-due.ts'
import { audit } from './auditor.ts'
import { lapseDue, nextLapse } from './clearance.ts'
import { listSurface } from './cleared.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { nextCallDue, overdue } from './escalation-due.ts'
import { missed } from './missed.ts'

/** What has come due in one chart: a call to pass on, the morning question, a silence to write down. */
export function whatIsDue(chart: Chart, team: Team, now: Instant): Decision {
  // The auditor looks first: it must see what was late before this round makes it good. What it has just called itself
  // is not overdue any more.
  const audited = audit(chart, team, now)
  const called = both(audited, overdue(withEntries(chart, audited.entries), team, now))
  return both(called, morning(chart, team, now), lapseDue(chart, team, now), requestsDue(chart, team, now))
}

/** When to look at this chart next; null when nothing will come due by itself. */
export function nextDue(chart: Chart, team: Team, now: Instant): Instant | null {
  const candidates = [
    nextMorning(chart, team, now),
    nextCallDue(chart, team, now),
    nextLapse(chart),
    nextRequest(chart, team),
  ]
  return candidates.filter((at): at is Instant => at !== undefined).toSorted()[0] ?? null
}

/** Mornings are asked from the day after the first enrolment on, while an episode runs: a move costs no morning. */
function asks(chart: Chart, day: Day): boolean {
  const { enrolment, episode } = chart
  if (!enrolment || !episode) return false
  const first = chart.entries.find((entry) => entry.kind === 'enrolment') ?? enrolment
  return day > dayAt(first.recordedAt, enrolment.timeZone)
}

/**
 * Nothing more is asked of a day that was answered or whose silence is written down. A silence that was ours is asked
 * about all the same while there is time: the host's clock may have run ahead and been set back.
 */
function isOver(chart: Chart, day: Day, cutOff: Instant, now: Instant): boolean {
  const silence = chart.missed.get(day)
  const ours = silence && !silence.asked && !chart.prompts.has(day) && now < cutOff
  return checkInOf(chart, day) !== undefined || (silence !== undefined && !ours)
}

function morning(chart: Chart, team: Team, now: Instant): Decision {
  const { enrolment } = chart
  if (!enrolment) return nothing
  const day = dayAt(now, enrolment.timeZone)
  if (!asks(chart, day)) return nothing
  const promptAt = instantAt(day, enrolment.promptAt, enrolment.timeZone)
  const cutOff = plusMinutes(promptAt, team.clinic.checkIn.cutOffAfterMinutes)
  if (now < promptAt || isOver(chart, day, cutOff, now)) return nothing
  if (now >= cutOff) return missed(chart, day, team, now)
  if (!chart.prompts.has(day)) return prompt(chart, day, cutOff, now)
  const late = now >= plusMinutes(promptAt, team.clinic.checkIn.remindAfterMinutes)
  return late && !chart.reminders.has(day) ? remind(chart, day, cutOff, now) : nothing
}

function prompt(chart: Chart, day: Day, useBy: Instant, now: Instant): Decision {
  const id = `prompt/${chart.athlete}/${day}`
  const entry: EntryOf<'prompt'> = { ...signed(chart.athlete, id, now), kind: 'prompt', day }
  const { athlete } = chart
  return {
    entries: [entry],
    notices: [{ key: id, kind: 'prompt', to: { person: athlete }, athlete, about: id, queuedAt: now, useBy }],
  }
}

/** One reminder a day, in the words of the question itself. */
function remind(chart: Chart, day: Day, useBy: Instant, now: Instant): Decision {
  const { athlete } = chart
  const id = `check-in-reminded/${athlete}/${day}`
  const entry: EntryOf<'check-in-reminded'> = { ...signed(athlete, id, now), kind: 'check-in-reminded', day }
  const notice = {
    key: id,
    kind: 'reminder' as const,
    to: { person: athlete },
    athlete,
    about: id,
    queuedAt: now,
  }
  return { entries: [entry], notices: [{ ...notice, useBy }] }
}

function nextMorning(chart: Chart, team: Team, now: Instant): Instant | undefined {
  const { enrolment } = chart
  if (!enrolment || !chart.episode) return undefined
  const today = dayAt(now, enrolment.timeZone)
  for (const day of [today, plusDays(today, 1)]) {
    const promptAt = instantAt(day, enrolment.promptAt, enrolment.timeZone)
    const { remindAfterMinutes, cutOffAfterMinutes } = team.clinic.checkIn
    const cutOff = plusMinutes(promptAt, cutOffAfterMinutes)
    if (!asks(chart, day) || isOver(chart, day, cutOff, now)) continue
    if (!chart.prompts.has(day)) return promptAt
    const reminded = chart.reminders.has(day) || remindAfterMinutes >= cutOffAfterMinutes
    return reminded ? cutOff : plusMinutes(promptAt, remindAfterMinutes)
  }
  return instantAt(plusDays(today, 1), enrolment.promptAt, enrolment.timeZone)
}

/** The coaches' list of the day, once its time has come at the clinic and somebody has named the channel. */
export function listDue(team: Team, now: Instant) {
  const { clinic, roster } = team
  const day = dayAt(now, clinic.timeZone)
  if (
    !roster.coachesChannel ||
    roster.listDay === day ||
    now < instantAt(day, clinic.listAt, clinic.timeZone)
  )
    return undefined
  const id = listSurface(day)
  return {
    entry: { id, author: 'sanderling', recordedAt: now, kind: 'list-posted' as const, day },
    notice: {
      key: id,
      kind: 'list' as const,
      to: { place: 'coaches' as const },
      about: day,
      surface: id,
      queuedAt: now,
      useBy: instantAt(plusDays(day, 1), '00:00', clinic.timeZone),
    },
  }
}
