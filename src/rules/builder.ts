import type { Clinic } from '../chart/clinic.ts'
import type { Day } from '../chart/day.ts'
import type { Ladder, Rung, Tissue } from '../chart/ladder.ts'
import { isRefusal } from '../science/refusal.ts'
import { boutsOf, costOf, type Runner, risePct, type Stage, type StageCost } from './builder-cost.ts'
import type { Refusal } from './decision.ts'

/** What a therapist asks a ladder for. */
export type Wish = {
  readonly id: string
  readonly effective: Day
  readonly tissues: readonly Tissue[]
  readonly diagnoses: readonly string[]
  readonly start: { readonly bodyWeightPct: number; readonly speedMps: number; readonly minutes: number }
  readonly goal: { readonly speedMps: number; readonly minutes: number; readonly on: Stage['on'] }
  /** The most that peak force, and the load of a session, may rise from one rung to the next, percent. */
  readonly most: { readonly forceRisePct: number; readonly loadRisePct: number }
  readonly treadmill: Clinic['treadmill']
  readonly runner: Runner
}

export type BuiltRung = {
  readonly stage: Stage
  readonly cost: StageCost
  /** What changed from the rung before: one thing, always. */
  readonly changed: string
  readonly forceRisePct: number
  readonly loadRisePct: number
}

/** A draft: it is nobody's plan until a therapist signs it. */
export type Built = { readonly ladder: Ladder; readonly rungs: readonly BuiltRung[] }

/** Longer before heavier before unbroken before faster (isbs-distance-first, warden-2021); the ground last. */
const order = ['minutes', 'body weight', 'pauses', 'speed', 'place'] as const
type Variable = (typeof order)[number]

const boutMinutes = 5
const minutesStep = 0.5
const speedStepMps = 0.1 / 3.6

/**
 * Rungs from a start to a goal that change one variable at a time, each by the largest step that the machine can
 * be set to and the limits allow. Refuses when even the smallest step breaks a limit, and says by how much.
 */
export function build(wish: Wish): Built | Refusal {
  const first = startOf(wish)
  if ('refused' in first) return first
  const rungs: BuiltRung[] = [first]
  for (const variable of order) {
    for (;;) {
      const here = rungs.at(-1) ?? first
      const next = climb(here, variable, wish)
      if (next === undefined) break
      if ('refused' in next) return next
      rungs.push(next)
      if (rungs.length > mostRungs)
        return refuse(
          `More than ${mostRungs} rungs: allow larger steps, or start nearer to the goal.`,
          'most.loadRisePct',
        )
    }
  }
  return { ladder: asLadder(wish, rungs), rungs }
}

const mostRungs = 60

function startOf(wish: Wish): BuiltRung | Refusal {
  const { start, goal, treadmill } = wish
  const { low, high } = treadmill.bodyWeightPct
  if (start.bodyWeightPct < low || start.bodyWeightPct > high)
    return refuse(`The treadmill carries from ${low} to ${high} % of body weight.`, 'start.bodyWeightPct')
  if (Math.max(start.speedMps, goal.speedMps) > treadmill.speedMps.high)
    return refuse(
      `The treadmill runs up to ${(treadmill.speedMps.high * 3.6).toFixed(1)} km/h.`,
      start.speedMps > treadmill.speedMps.high ? 'start.speedMps' : 'goal.speedMps',
    )
  if (goal.minutes < start.minutes || goal.speedMps < start.speedMps)
    return refuse(
      'The goal must not be shorter or slower than the start.',
      goal.minutes < start.minutes ? 'goal.minutes' : 'goal.speedMps',
    )
  const stage: Stage = {
    on: 'lbpp-treadmill',
    ...start,
    boutMinutes: Math.min(boutMinutes, start.minutes),
  }
  const cost = costOf(stage, wish.runner)
  return isRefusal(cost)
    ? refuse(cost.words, 'start.speedMps')
    : { stage, cost, changed: 'start', forceRisePct: 0, loadRisePct: 0 }
}

/** The largest allowed step of one variable; undefined when it has reached its goal. */
function climb(from: BuiltRung, variable: Variable, wish: Wish): BuiltRung | Refusal | undefined {
  let best: BuiltRung | undefined
  for (const stage of stepsOf(from.stage, variable, wish)) {
    const cost = costOf(stage, wish.runner)
    if (isRefusal(cost)) return best ?? refuse(cost.words, 'goal.speedMps')
    const rung: BuiltRung = {
      stage,
      cost,
      changed: changeWords(from.stage, stage, variable),
      forceRisePct: risePct(from.cost.peakForceBw, cost.peakForceBw),
      loadRisePct: risePct(from.cost.loadBw, cost.loadBw),
    }
    const fits = rung.forceRisePct <= wish.most.forceRisePct && rung.loadRisePct <= wish.most.loadRisePct
    if (!fits) return best ?? tooTight(rung, variable, wish)
    best = rung
  }
  return best
}

/** The settings of one variable above the present one, smallest step first, up to the goal. */
function* stepsOf(from: Stage, variable: Variable, { goal, treadmill }: Wish): Generator<Stage> {
  const { bodyWeightPct } = treadmill
  switch (variable) {
    case 'minutes':
      for (let minutes = from.minutes + minutesStep; minutes <= goal.minutes; minutes += minutesStep)
        yield { ...from, minutes, boutMinutes: Math.min(boutMinutes, minutes) }
      return
    case 'body weight':
      for (
        let pct = from.bodyWeightPct + bodyWeightPct.step;
        pct <= bodyWeightPct.high;
        pct += bodyWeightPct.step
      )
        yield { ...from, bodyWeightPct: pct }
      return
    case 'pauses': {
      // Half as many bouts each time: nobody goes from five minutes without a walk to thirty in one step (D31).
      const bouts = boutsOf(from)
      if (bouts > 1) yield { ...from, boutMinutes: from.minutes / Math.ceil(bouts / 2) }
      return
    }
    case 'speed': {
      const step = treadmill.speedMps.step ?? speedStepMps
      const count = Math.floor((goal.speedMps - from.speedMps) / step + 1e-9)
      for (let i = 1; i <= count; i += 1) yield { ...from, speedMps: from.speedMps + i * step }
      return
    }
    case 'place':
      if (from.on !== goal.on) yield { ...from, on: goal.on, bodyWeightPct: 100 }
      return
    default:
      variable satisfies never
  }
}

function tooTight(rung: BuiltRung, variable: Variable, { most }: Wish): Refusal {
  const rise = `peak force by ${rung.forceRisePct.toFixed(1)} % and the session's load by ${rung.loadRisePct.toFixed(1)} %`
  return refuse(
    `The smallest step of ${variable} (${rung.changed}) raises ${rise}: allow more, or start elsewhere.`,
    rung.forceRisePct > most.forceRisePct ? 'most.forceRisePct' : 'most.loadRisePct',
  )
}

function changeWords(from: Stage, to: Stage, variable: Variable): string {
  switch (variable) {
    case 'minutes':
      return `${from.minutes} to ${to.minutes} min`
    case 'body weight':
      return `${from.bodyWeightPct} to ${to.bodyWeightPct} % of body weight`
    case 'pauses':
      return boutsOf(to) > 1 ? `${boutsOf(from)} to ${boutsOf(to)} bouts` : 'no walking between'
    case 'speed':
      return `${(from.speedMps * 3.6).toFixed(1)} to ${(to.speedMps * 3.6).toFixed(1)} km/h`
    case 'place':
      return 'from the treadmill to the ground'
    default:
      return variable satisfies never
  }
}

function asLadder(wish: Wish, rungs: readonly BuiltRung[]): Ladder {
  const { forceRisePct, loadRisePct } = wish.most
  const last = rungs.length
  const minutes = rungs[last - 1]?.stage.minutes ?? wish.goal.minutes
  return {
    id: wish.id,
    version: 1,
    effective: wish.effective,
    title: `Built: ${wish.start.bodyWeightPct} % to ${wish.goal.minutes} min ${wish.goal.on === 'ground' ? 'on the ground' : 'in the treadmill'}`,
    about: `A draft until a therapist signs it. One thing changes from rung to rung; peak force rises by at most ${forceRisePct} % and the load of a session by at most ${loadRisePct} %, at the light and at the heavy end of the published figures.`,
    diagnoses: [...wish.diagnoses],
    tissues: [...wish.tissues],
    bodyWeight: 'carried',
    sources: [
      {
        key: 'common-practice',
        label: 'common-practice',
        gives: 'one change at a time, the limits that the therapist set',
      },
      { key: 'isbs-distance-first', label: 'read', gives: 'distance before speed' },
    ],
    entry: ['cleared for unloaded running by the treating clinician'],
    exit: [`${wish.goal.minutes} minutes, settled`],
    limits: { sessionsPer7Days: 3, daysFromRunToRun: 2, rungsUpPer7Days: 2, restDaysWhenFlared: 0 },
    rungs: rungs.map(({ stage, changed }, i) => asRung(stage, `rung ${i + 1}`, changed)),
    examples: [
      {
        about: 'the last rung runs the minutes of the goal',
        rung: last,
        runMinutes: { low: minutes, high: minutes },
      },
    ],
  }
}

/** The running is divided evenly; walking between two bouts is one minute. */
function asRung(stage: Stage, name: string, changed: string): Rung {
  const repeats = boutsOf(stage)
  const minutes = stage.minutes / repeats
  const kmh = Number((stage.speedMps * 3.6).toFixed(2))
  return {
    name,
    bodyWeightPct: stage.bodyWeightPct,
    sessions: { low: 1, high: 3 },
    on: stage.on,
    warmUpMinutes: 5,
    bouts: [
      {
        gait: 'run',
        repeats: { low: repeats, high: repeats },
        minutes: { low: minutes, high: minutes },
        speedKmh: { low: kmh, high: kmh },
        inclinePct: 0,
        ...(repeats > 1 ? { recovery: { gait: 'walk', minutes: 1 } } : {}),
      },
    ],
    coolDownMinutes: 5,
    note: changed,
  }
}

/** `field` is the path in the wish. */
function refuse(words: string, field: string): Refusal {
  return { refused: 'cannot-build', words, field }
}
