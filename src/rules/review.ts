import { type Chart, checkInOf } from '../chart/chart.ts'
import { type Day, dayAt, daysBetween, type Instant, plusDays } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { isRefusal } from '../science/refusal.ts'
import { type ResponseCurve, responseCurve } from '../science/response-curve.ts'
import { lapsesWithin } from './clearance.ts'
import { type LineStanding, setsFor, standingOf } from './criteria.ts'
import type { Refusal } from './decision.ts'
import { mostOf } from './response-watch.ts'
import { minutesRun, type Week, weekOf } from './review-week.ts'
import { settingsOf } from './settings.ts'
import type { Shelf } from './shelf.ts'
import { standing } from './standing.ts'
import { decide } from './why.ts'

/** What a therapist looks through once a week, before the next phase is signed. */
export type Review = {
  readonly day: Day
  readonly week: Week
  readonly before: Week
  readonly rung: { readonly rung: number; readonly of: number; readonly name: string } | undefined
  /** The load that the athlete tolerates, body-weight minutes against the answers; it opens nothing. */
  readonly curve: ResponseCurve | undefined
  readonly criteria: readonly {
    readonly set: string
    readonly title: string
    readonly lines: readonly LineStanding[]
  }[]
  /** What the rules would do now, and why. */
  readonly next: { readonly move: string; readonly because: readonly Because[] }
  readonly lapses: readonly { readonly what: string; readonly on: Day }[]
}

const lapseDays = 14

/** The review of the seven days that end on the athlete's day at an instant. */
export function review(chart: Chart, team: Team, shelf: Shelf, now: Instant): Review {
  const day = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const where = standing(chart, day)
  const rungs = chart.plan?.ladder.rungs ?? []
  const criteria = setsFor(chart, shelf).map((set) => ({
    set: `${set.id}@${set.version}`,
    title: set.title,
    lines: standingOf(set, chart, shelf, day),
  }))
  const { move, because } = decide(chart, team, now)
  return {
    day,
    week: weekOf(chart, day, day),
    before: weekOf(chart, plusDays(day, -7), day),
    rung: where && { rung: where.rung, of: rungs.length, name: rungs[where.rung - 1]?.name ?? '' },
    curve: curveOf(chart),
    criteria,
    next: { move, because },
    lapses: lapsesOf(chart, criteria, day, now),
  }
}

/** When the next review is due: a week after the last one, or after the plan was signed. */
export function reviewDue(chart: Chart): Day | undefined {
  const { plan, enrolment } = chart
  if (!plan || !enrolment) return undefined
  const last = chart.reviews.at(-1)?.day ?? dayAt(plan.recordedAt, enrolment.timeZone)
  return plusDays(last, 7)
}

/** A week that is not over cannot have been looked through, nor one before the athlete was enrolled. */
export function refusedReview(
  { enrolment }: Chart,
  { day }: { readonly day: Day },
  today: Day,
): Refusal | undefined {
  if (day > today) return { refused: 'not-yet', words: 'That day has not come yet.', field: 'day' }
  return enrolment && day < dayAt(enrolment.recordedAt, enrolment.timeZone)
    ? { refused: 'too-early', words: 'That day is before the enrolment.', field: 'day' }
    : undefined
}

/** Minutes of running times the fraction carried, each with the worst pain of the day and night after. */
function curveOf(chart: Chart): ResponseCurve | undefined {
  const sessions = chart.sessions.flatMap((session) => {
    const next = checkInOf(chart, plusDays(session.day, 1))
    const carried = session.bouts.find((bout) => bout.gait === 'run')
    const pct = carried?.measuredBodyWeightPct ?? carried?.bodyWeightPct ?? 0
    const load = minutesRun(session) * (pct / 100)
    const painAfter = Math.max(session.painDuring, session.painAfter, next?.worstPain ?? 0)
    return next && load > 0 ? [{ load, painAfter }] : []
  })
  const curve = responseCurve(sessions, mostOf(settingsOf(chart)))
  return isRefusal(curve) ? undefined : curve
}

function lapsesOf(chart: Chart, criteria: Review['criteria'], today: Day, now: Instant): Review['lapses'] {
  const until = lapsesWithin(chart, lapseDays, now)
  const lines = criteria.flatMap(({ lines }) =>
    lines.flatMap(({ line, expires, status }) =>
      expires && status === 'met' && daysBetween(today, expires) <= lapseDays
        ? [{ what: line.words, on: expires }]
        : [],
    ),
  )
  const surgeon = chart.episode?.surgeonLimits?.until
  return [
    ...(until ? [{ what: `clearance for ${chart.clearance?.state}`, on: until }] : []),
    ...(surgeon && surgeon >= today && daysBetween(today, surgeon) <= lapseDays
      ? [{ what: "the surgeon's limits", on: surgeon }]
      : []),
    ...lines,
  ]
}
