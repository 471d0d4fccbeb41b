import { type Chart, checkInOf, prescriptionOf } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { Move } from '../chart/ladder.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { prescribe } from './prescription.ts'
import { rings, type Triage, triage } from './triage.ts'

/** The decision of a day with every reason behind it. */
export type Decided = {
  /** `waiting`: the athlete has not checked in, and nothing is read as fine. */
  readonly disposition: Triage['disposition'] | 'waiting'
  readonly move: Move
  /** What there is to do today, a run or exercises; null when there is nothing. */
  readonly prescription: Prescription | null
  readonly because: readonly Because[]
}

/** What the rules decide for the athlete's day at an instant. The same chart and instant give the same decision. */
export function decide(chart: Chart, team: Team, now: Instant): Decided {
  const day = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const checkIn = checkInOf(chart, day)
  if (!checkIn) return { disposition: 'waiting', move: 'hold', prescription: null, because: [noAnswer(day)] }
  const { disposition, hold, because, support } = triage(chart, checkIn, team.clinic)
  if (support && rings(support.tier)) return { ...held(disposition), because: [...because, inConfidence] }
  if (hold) return { ...held(disposition), because }
  const prescription = prescribe(chart, checkIn, team, now)
  const seen = forTherapist(chart, checkIn, prescription).length > 0
  return {
    disposition: disposition === 'continue' && seen ? 'note' : disposition,
    move: prescription.move,
    prescription: prescription.what === 'rest' ? null : prescription,
    because: [...because, ...prescription.because],
  }
}

function held(disposition: Triage['disposition']) {
  return { disposition, move: 'hold', prescription: null } as const
}

/** What was said goes to the licensed person and to nobody else: here it is only that somebody is called. */
const inConfidence: Because = {
  finding: 'in-confidence',
  words: 'A person of the team is called about this morning.',
  source: 'common-practice',
}

/** Findings of a prescription that the treating therapist hears of the same day, without being called. */
const told: ReadonlySet<string> = new Set([
  'response-flared',
  'hold-after-pain',
  'swelling',
  'effusion',
  'effusion-again',
  'proposed',
  'out-of-reach',
])

/** What is new for the therapist: the same words are not said again on the next morning. */
export function forTherapist(
  chart: Chart,
  checkIn: CheckIn,
  prescription: Pick<Prescription, 'because'>,
): readonly Because[] {
  const earlier = chart.prescriptions.findLast(({ day }) => day < checkIn.day)?.because ?? []
  const known = new Set(earlier.map(({ words }) => words))
  return prescription.because.filter(({ finding, words }) => told.has(finding) && !known.has(words))
}

/** Why the athlete's day is as it is, for a check-in that is written down already. */
export function reasonsFor(chart: Chart, checkIn: CheckIn, team: Team): readonly Because[] {
  const prescription = prescriptionOf(chart, checkIn.day)
  return [
    ...triage(chart, checkIn, team.clinic).because,
    ...(prescription ? forTherapist(chart, checkIn, prescription) : []),
  ]
}

function noAnswer(day: string): Because {
  const words = `No check-in on ${day} yet: check in first. Without an answer there is no progression.`
  return { finding: 'no-check-in', words, source: 'common-practice' }
}
