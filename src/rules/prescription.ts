import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Day, Instant } from '../chart/day.ts'
import type { Move } from '../chart/ladder.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { signed } from './decision.ts'
import { nextStep } from './move.ts'
import { easiest, fitted } from './prescription-dose.ts'
import { duringRun } from './prescription-during.ts'
import { restUntil, whatRests } from './prescription-rests.ts'
import { noPlan, whatStops } from './prescription-stops.ts'
import { effusionRule } from './response-effusion.ts'
import { settingsOf } from './settings.ts'
import { type Standing, standing } from './standing.ts'

type Plan = NonNullable<Chart['plan']>
type Prescribed = Omit<
  Prescription,
  'id' | 'athlete' | 'author' | 'recordedAt' | 'kind' | 'day' | 'about' | 'ladder'
>
type Wanted = {
  readonly move: Move
  readonly rung: number
  readonly because: readonly Because[]
  readonly proposedRung?: number
}

/**
 * Today's prescription for an athlete who has checked in. Whatever stops a run is asked first, in the order of
 * severity; only then the response decides the rung, and the limits have the last word.
 */
export function prescribe(chart: Chart, checkIn: CheckIn, team: Team, now: Instant): Prescription {
  const earlier = chart.prescriptions.filter((prescription) => prescription.day === checkIn.day).length
  const id = `prescription/${chart.athlete}/${checkIn.day}${earlier > 0 ? `/${earlier + 1}` : ''}`
  const plan = chart.plan
  return {
    ...signed(chart.athlete, id, now),
    kind: 'prescription',
    day: checkIn.day,
    about: checkIn.id,
    ladder: plan ? `${plan.ladder.id}@${plan.ladder.version}` : 'none',
    ...prescribed(chart, checkIn, team),
  }
}

function prescribed(chart: Chart, checkIn: CheckIn, team: Team): Prescribed {
  const { plan } = chart
  const where = standing(chart, checkIn.day)
  const stop = whatStops(chart, checkIn)
  if (!plan || !where) return { move: 'hold', rung: 1, what: 'rest', because: [stop ?? noPlan] }
  const wanted = wantedFrom(chart, plan, where, checkIn.day)
  if (stop) return held(wanted, where, stop)
  const until = restUntil(plan, where)
  if (until !== undefined && until >= checkIn.day) return resting(plan, wanted, where, until)
  const rest = whatRests(chart, plan, where, checkIn, wanted.rung)
  if (rest) {
    const back = wanted.move === 'back'
    return {
      move: wanted.move === 'up' ? 'repeat' : wanted.move,
      rung: back ? wanted.rung : where.rung,
      what: 'exercise',
      ...programmeOf(plan),
      because: [...wanted.because, rest],
    }
  }
  const { dose, ...step } = fitted(
    chart,
    plan,
    { ...wanted, from: where.rung },
    checkIn.day,
    team.clinic.treadmill,
  )
  if (!dose) return { ...step, what: 'rest' }
  return {
    ...step,
    what: 'run',
    dose: step.move === 'back' && step.rung === where.rung ? easiest(dose) : dose,
    during: duringRun(chart, dose, team.clinic.treadmill),
    ...(wanted.proposedRung === undefined ? {} : { proposedRung: wanted.proposedRung }),
  }
}

/** The step that the last response leads to, before limits; up only with an answer to every run that was asked for. */
function wantedFrom(chart: Chart, plan: Plan, where: Standing, today: Day): Wanted {
  if (!where.last) {
    const words = 'First run of the signed plan.'
    const because = [{ finding: 'start', words, source: 'common-practice' }]
    return { move: 'start', rung: where.rung, because }
  }
  const rules = settingsOf(chart)
  const { answer } = where.last
  const footing = { ...where, rungsUpMost: rules.rungsUpPer7Days }
  const step = nextStep(plan.ladder, footing, answer.response)
  const because = [answer.because, step.because]
  if (step.move !== 'up') return { move: step.move, rung: step.rung, because }
  const repeat = (why: Because) => ({
    move: 'repeat' as const,
    rung: where.rung,
    because: [answer.because, why],
  })
  if (where.unlogged !== undefined) return repeat(notLogged(where.unlogged))
  if (chart.episode?.tissue === 'joint' && effusionRule(chart, today) === 'same-level')
    return repeat(sameLevel)
  if (rules.stepUp === 'propose') return { ...repeat(proposed(step.rung)), proposedRung: step.rung }
  return { move: 'up', rung: step.rung, because }
}

/** On hold. After pain in the run the rung that waits behind the hold is one lower, and is said. */
function held(wanted: Wanted, where: Standing, stop: Because): Prescribed {
  const back = wanted.move === 'back'
  return {
    move: 'hold',
    rung: back ? wanted.rung : where.rung,
    what: 'rest',
    because: back ? [stop, ...wanted.because] : [stop],
  }
}

/** Days off after the last run; a step back is said at once, so that nobody expects the old rung afterwards. */
function resting(plan: Plan, wanted: Wanted, where: Standing, until: Day): Prescribed {
  const back = wanted.move === 'back'
  const words = `No run up to and including ${until}.`
  return {
    move: back ? 'back' : 'rest',
    rung: back ? wanted.rung : where.rung,
    what: 'exercise',
    restUntil: until,
    ...programmeOf(plan),
    because: [...wanted.because, { finding: 'rest-days', words, source: wanted.because[0]?.source ?? '' }],
  }
}

function programmeOf({ programme }: Plan): Pick<Prescription, 'programme'> {
  return programme ? { programme: `${programme.id}@${programme.version}` } : {}
}

function notLogged(day: Day): Because {
  const words = `The run of ${day} was neither logged nor skipped: no step up until it is.`
  return { finding: 'not-logged', words, source: 'common-practice' }
}

function proposed(rung: number): Because {
  const words = `Ready for rung ${rung}: your therapist signs the step.`
  return { finding: 'proposed', words, source: 'common-practice' }
}

const sameLevel: Because = {
  finding: 'effusion-same-level',
  words: 'The effusion is 1+ at the first visit after a hold: the same level.',
  source: 'white-soreness-effusion',
}
