import { type Chart, openEscalations } from '../chart/chart.ts'
import { State } from '../chart/clearance.ts'
import type { Day } from '../chart/day.ts'
import type { Ceiling } from '../chart/dose.ts'
import { allMet, type LineStanding, setsFor, standingOf } from './criteria.ts'
import { type Chosen, looserChoices, signedBefore } from './family-choice.ts'
import type { Shelf } from './shelf.ts'
import type { Submission } from './submissions.ts'

/**
 * What a submission would allow that was not allowed before, one sentence each, for the person who signs to confirm.
 * Empty when it raises no risk. It refuses nothing: the signature is the therapist's.
 */
export function raises(chart: Chart, submission: Submission, shelf: Shelf, today: Day): readonly string[] {
  switch (submission.kind) {
    case 'plan-signed':
      return [
        ...higher('plan', chart.plan?.ceiling, submission.ceiling),
        ...looserRules(chart, submission.settings, shelf),
      ]
    case 'clearance':
      return [
        ...clearsFurther(chart, submission.state),
        ...higherClearance(chart, submission.ceiling),
      ].concat(againstCriteria(chart, submission.state, shelf, today))
    case 'criteria-signed': {
      const set = shelf.criteria(submission.set)
      const lines = set ? standingOf(set, chart, shelf, today) : []
      return allMet(lines) ? [] : [`You sign "${set?.title}" although ${open(lines)}.`]
    }
    case 'hold-lifted':
      return liftsAfterCall(chart, submission.hold)
    default:
      return []
  }
}

function looserRules(chart: Chart, chosen: Chosen | undefined, shelf: Shelf) {
  const tissue = chart.episode?.tissue
  return tissue ? looserChoices(shelf.family(tissue), signedBefore(chart), chosen ?? {}) : []
}

function higher(what: string, before: Ceiling | undefined, after: Ceiling): string[] {
  if (!before) return []
  const rows = [
    { name: 'body weight carried', unit: '%', from: before.bodyWeightPct, to: after.bodyWeightPct },
    { name: 'speed', unit: 'km/h', from: kmh(before.speedMps), to: kmh(after.speedMps) },
    { name: 'running', unit: 'min', from: before.runMinutes, to: after.runMinutes },
  ]
  return rows
    .filter(({ from, to }) => to > from)
    .map(
      ({ name, unit, from, to }) =>
        `The ceiling of the ${what} for ${name} rises from ${from} to ${to} ${unit}.`,
    )
}

function higherClearance(chart: Chart, after: Ceiling | undefined): string[] {
  const before = chart.clearance?.ceiling
  if (before && !after) return ['The clearance has no ceiling any more; the plan alone limits the run.']
  return after ? higher('clearance', before, after) : []
}

/** A first clearance is not a rise: there is nothing that it could be higher than. */
function clearsFurther({ clearance }: Chart, to: State): string[] {
  if (!clearance) return []
  const rank = (state: State) => State.options.indexOf(state)
  return rank(to) > rank(clearance.state) ? [`The clearance rises from "${clearance.state}" to "${to}".`] : []
}

/** Every set between what stands and this step that is neither met nor signed. */
function againstCriteria(chart: Chart, state: State, shelf: Shelf, today: Day): string[] {
  const rank = (one: State) => State.options.indexOf(one)
  const before = chart.clearance ? rank(chart.clearance.state) : rank('no running')
  return setsFor(chart, shelf)
    .filter((set) => rank(set.towards) > before && rank(set.towards) <= rank(state))
    .filter((set) => !chart.criteriaSigned.some((signed) => signed.set === `${set.id}@${set.version}`))
    .map((set) => ({ set, lines: standingOf(set, chart, shelf, today) }))
    .filter(({ lines }) => !allMet(lines))
    .map(({ set, lines }) => `"${set.title}" is not signed: ${open(lines)}.`)
}

function liftsAfterCall(chart: Chart, id: string): string[] {
  const hold = chart.holds.find((one) => one.id === id)
  const escalation = chart.escalations.find((one) => one.id === hold?.about)
  if (!hold || escalation?.tier !== 'emergency') return []
  const still = openEscalations(chart).includes(escalation) ? ' The call is still open.' : ''
  return [
    escalation.concern === 'support'
      ? `This hold came from an emergency, in confidence.${still}`
      : `This hold came from an emergency: ${hold.because.map((one) => one.words).join(' ')}${still}`,
    'Running is possible again from the next check-in on.',
  ]
}

function open(lines: readonly LineStanding[]): string {
  const of = lines.filter(({ line, status }) => line.gates && status !== 'met')
  const shown = of.slice(0, 4).map(({ line, status }) => `${line.line} is ${status}`)
  return `${shown.join(', ')}${of.length > 4 ? ` and ${of.length - 4} more are open` : ''}`
}

function kmh(speedMps: number): number {
  return Number((speedMps * 3.6).toFixed(1))
}
