import type { Chart } from '../chart/chart.ts'
import { type Day, type Instant, instantAt, plusDays } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import type { Team } from '../chart/roster.ts'
import { type AmendRequest, amendRequests, answerBy } from './amend-request.ts'
import { both, type Decision, nothing, signed } from './decision.ts'
import { noteFor, noteTo } from './note.ts'

type Reminder = {
  readonly id: string
  readonly request: string
  readonly why: 'near' | 'passed'
  readonly answerBy: Day
  readonly at: Instant
}

/**
 * A request for correction whose date comes near is shown to the treating therapist again, and one whose date has
 * passed to the therapist and to the clinic leads. Once each; an extension sets a new date and so a new reminder.
 */
export function requestsDue(chart: Chart, team: Team, now: Instant): Decision {
  const due = reminders(chart, team).filter(({ at }) => at <= now)
  return due.length === 0 ? nothing : both(...due.map((reminder) => remind(chart, reminder, team, now)))
}

export function nextRequest(chart: Chart, team: Team): Instant | undefined {
  return reminders(chart, team)
    .map(({ at }) => at)
    .toSorted()[0]
}

/** All that are still to be given, in the morning of the clinic. */
function reminders(chart: Chart, team: Team): readonly Reminder[] {
  // Nearly every chart has none: a season's entries need not be looked through.
  if (!chart.ids.has(`amendment-request/${chart.athlete}/1`)) return []
  return amendRequests(chart)
    .filter(({ answered }) => !answered)
    .flatMap((request) => remindersOf(request, chart, team))
    .filter(({ id }) => !chart.ids.has(id))
}

function remindersOf(request: AmendRequest, chart: Chart, team: Team): readonly Reminder[] {
  const { clinic } = team
  const by = answerBy(request, chart, team)
  const of = (why: Reminder['why'], day: Day): Reminder => ({
    id: `${request.asked.id}/${why}/${by}`,
    request: request.asked.id,
    why,
    answerBy: by,
    at: instantAt(day, clinic.listAt, clinic.timeZone),
  })
  return [of('near', plusDays(by, -clinic.record.remindBeforeDays)), of('passed', plusDays(by, 1))]
}

function remind(
  chart: Chart,
  { id, request, why, answerBy: by }: Reminder,
  team: Team,
  now: Instant,
): Decision {
  const entry: EntryOf<'amendment-request-reminded'> = {
    ...signed(chart.athlete, id, now),
    kind: 'amendment-request-reminded',
    request,
    why,
    answerBy: by,
  }
  const leads = [...team.roster.people.values()].filter(
    (person) => person.active && person.roles.includes('clinic-lead'),
  )
  const higher = why === 'passed' ? leads : []
  return both(
    { entries: [entry], notices: [] },
    noteTo(chart, id, now, team),
    ...higher.map(({ id: lead }) =>
      noteFor(lead, chart, { about: id, key: `${id}/note/${lead}` }, team, now),
    ),
  )
}
