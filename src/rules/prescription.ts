import { type Chart, openEscalations } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { type Day, daysBetween, type Instant, weekdayOf } from '../chart/day.ts'
import type { Dose } from '../chart/dose.ts'
import { doseOf, type Ladder, type Move } from '../chart/ladder.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { Team } from '../chart/roster.ts'
import type { Because } from '../chart/signing.ts'
import { capped, lowerOf } from './ceiling.ts'
import { signed } from './decision.ts'
import { nextStep } from './move.ts'
import { type Standing, standing } from './standing.ts'

type Plan = NonNullable<Chart['plan']>
type Prescribed = Pick<Prescription, 'move' | 'rung' | 'what' | 'because'> & { readonly dose?: Dose }

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
  const today = checkIn.day
  const plan = chart.plan
  const where = standing(chart, today)
  const stop = whatStops(chart, today)
  if (!plan || !where || stop)
    return { move: 'hold', rung: where?.rung ?? 1, what: 'rest', because: [stop ?? noPlan] }
  const { move, rung, because } = stepFrom(plan.ladder, where)
  const rest = whatRests(chart, plan, where, checkIn, rung)
  if (rest)
    return {
      move: move === 'up' ? 'repeat' : move,
      rung: where.rung,
      what: 'exercise',
      because: [...because, rest],
    }
  return dosed(chart, plan, team, { move, rung, because, from: where.rung })
}

/** What takes running away altogether, whatever the ladder says. */
function whatStops(chart: Chart, today: Day): Because | undefined {
  const practice = (finding: string, words: string) => ({ finding, words, source: 'common-practice' })
  if (openEscalations(chart).length > 0)
    return practice('open-call', 'A call is open: no running until it is closed.')
  if (chart.holds.length > 0) return practice('hold', 'On hold until a therapist lifts it.')
  if (!chart.plan) return noPlan
  if (!chart.clearance) return practice('not-cleared', 'No therapist has cleared running yet.')
  if (chart.clearance.state === 'no running')
    return practice('cleared-for-none', 'Cleared for no running at present.')
  if (chart.clearance.until < today)
    return practice('clearance-lapsed', `The clearance lapsed on ${chart.clearance.until}.`)
  const notBefore = chart.episode?.noRunBefore
  if (notBefore && today < notBefore)
    return practice('surgeon', `The surgeon allows no running before ${notBefore}.`)
  return undefined
}

const noPlan: Because = { finding: 'no-plan', words: 'No plan is signed yet.', source: 'common-practice' }

function stepFrom(
  ladder: Ladder,
  where: Standing,
): { move: Move; rung: number; because: readonly Because[] } {
  if (!where.last) {
    const words = 'First run of the signed plan.'
    return {
      move: 'start',
      rung: where.rung,
      because: [{ finding: 'start', words, source: 'common-practice' }],
    }
  }
  const step = nextStep(ladder, where, where.last.answer.response)
  return { move: step.move, rung: step.rung, because: [where.last.answer.because, step.because] }
}

/** What makes today a day without a run although running is allowed. */
function whatRests(
  chart: Chart,
  plan: Plan,
  where: Standing,
  checkIn: CheckIn,
  next: number,
): Because | undefined {
  const { limits, sources } = plan.ladder
  const source = sources[0]?.key ?? 'common-practice'
  const since = where.last && daysBetween(where.last.session.day, checkIn.day)
  if (since !== undefined && since < limits.daysFromRunToRun)
    return {
      finding: 'too-close',
      words: `${limits.daysFromRunToRun} days from run to run at least.`,
      source,
    }
  if (!plan.days.includes(weekdayOf(checkIn.day)))
    return {
      finding: 'not-a-run-day',
      words: 'Not one of the run days in your plan.',
      source: 'common-practice',
    }
  if (where.runsIn7Days >= limits.sessionsPer7Days)
    return { finding: 'week-full', words: `No more than ${limits.sessionsPer7Days} runs in 7 days.`, source }
  const most = plan.ladder.rungs[where.rung - 1]?.sessions.high ?? 1
  if (next === where.rung && where.runsOnRungIn7Days >= most)
    return { finding: 'rung-full', words: `No more than ${most} runs on this rung in 7 days.`, source }
  if (chart.episode?.tissue === 'bone' && checkIn.worstPain > 0)
    return { finding: 'pain-today', words: 'A bone that hurts today does not run today.', source }
  return undefined
}

function dosed(
  chart: Chart,
  plan: Plan,
  team: Team,
  step: { move: Move; rung: number; because: readonly Because[]; from: number },
): Prescribed {
  const ceiling = lowerOf(plan.ceiling, chart.clearance?.ceiling)
  const doseAt = (rung: number) => {
    const found = plan.ladder.rungs[rung - 1]
    return found && capped(doseOf(found), ceiling, team.clinic.treadmill)
  }
  for (let rung = step.rung; rung >= 1; rung -= 1) {
    const dose = doseAt(rung)
    if (!dose) continue
    if (rung === step.rung) return { move: step.move, rung, what: 'run', dose, because: [...step.because] }
    const move = rung >= step.from ? 'repeat' : 'back'
    return { move, rung, what: 'run', dose, because: [...step.because, underCeiling] }
  }
  return { move: 'hold', rung: step.from, what: 'rest', because: [...step.because, outOfReach] }
}

const underCeiling: Because = {
  finding: 'ceiling',
  words: 'The signed ceiling keeps the run on a lower rung.',
  source: 'common-practice',
}

const outOfReach: Because = {
  finding: 'out-of-reach',
  words: 'No rung of the ladder fits under the signed ceiling.',
  source: 'common-practice',
}
