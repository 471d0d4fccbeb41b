import type { Bout, Dose, Range } from '../chart/dose.ts'
import type { Runner } from '../science/bout.ts'
import { cost } from '../science/cost.ts'
import { groundSpeedMps } from '../science/equal-effort.ts'
import type { Note } from '../science/note.ts'
import { isRefusal } from '../science/refusal.ts'

/** What the running of one session costs the body, from the light to the heavy end of the published figures. */
export type DoseCost = {
  /** Peak force of a step of the hardest bout, body weights. */
  readonly peakForceBw: Range
  /** The same against full weight at the same speed; 1 on the ground. */
  readonly forceRatio: Range
  /** Gross, of the hardest bout, per kg of whole body mass and minute. */
  readonly vo2MlKgMin: Range
  /** Steps of the running alone. */
  readonly steps: Range
  /** Level speed on the ground that is as hard as the fastest running; absent on the ground itself. */
  readonly asHardAsMps: Range | undefined
  readonly notes: readonly Note[]
}

/**
 * The cost of a prescribed session, its ranges of speed and minutes spanned. Undefined where nothing can honestly be
 * reckoned: a pace that is left to the athlete, or a speed that the published equations do not reach.
 */
export function doseCost(dose: Dose, runner: Runner): DoseCost | undefined {
  const running = dose.bouts.filter((bout) => bout.gait === 'run')
  const costs = running.map((bout) => boutCost(bout, dose.on, runner))
  const known = costs.filter((one) => one !== undefined)
  const [first, ...rest] = known
  if (!first || known.length < costs.length) return undefined
  return rest.reduce(
    (a, b) => ({
      peakForceBw: span(a.peakForceBw, b.peakForceBw, Math.max),
      forceRatio: span(a.forceRatio, b.forceRatio, Math.max),
      vo2MlKgMin: span(a.vo2MlKgMin, b.vo2MlKgMin, Math.max),
      steps: { low: a.steps.low + b.steps.low, high: a.steps.high + b.steps.high },
      asHardAsMps: a.asHardAsMps && b.asHardAsMps && span(a.asHardAsMps, b.asHardAsMps, Math.max),
      notes: [...a.notes, ...b.notes.filter(({ words }) => !a.notes.some((note) => note.words === words))],
    }),
    first,
  )
}

function boutCost(bout: Bout, on: Dose['on'], runner: Runner): DoseCost | undefined {
  const { speedMps, minutes, bodyWeightPct, inclinePct, repeats } = bout
  if (!speedMps || !minutes) return undefined
  const setting = {
    bodyWeightPct,
    ...(on === 'lbpp-treadmill' ? {} : { measuredBodyWeightPct: 100 }),
  }
  const at = (speed: number, howLong: number) =>
    cost(
      {
        gait: 'run',
        gradePct: inclinePct,
        trulyRunning: true,
        speedMps: speed,
        minutes: howLong,
        ...setting,
      },
      runner,
    )
  const slow = at(speedMps.low, repeats.low * minutes.low)
  const fast = at(speedMps.high, repeats.high * minutes.high)
  if (isRefusal(slow) || isRefusal(fast)) return undefined
  const asHard = on === 'lbpp-treadmill' ? groundSpeedMps : undefined
  return {
    peakForceBw: { low: slow.peakForceBw.low, high: fast.peakForceBw.high },
    forceRatio: {
      low: Math.min(slow.forceRatio.low, fast.forceRatio.low),
      high: Math.max(slow.forceRatio.high, fast.forceRatio.high),
    },
    vo2MlKgMin: { low: lowOf(slow.vo2MlKgMin), high: highOf(fast.vo2MlKgMin) },
    steps: { low: slow.steps?.low ?? 0, high: fast.steps?.high ?? 0 },
    asHardAsMps: asHard && {
      low: asHard(speedMps.low, setting).low,
      high: asHard(speedMps.high, setting).high,
    },
    notes: [
      ...slow.notes,
      ...fast.notes.filter(({ words }) => !slow.notes.some((note) => note.words === words)),
    ],
  }
}

function span(a: Range, b: Range, of: (x: number, y: number) => number): Range {
  return { low: of(a.low, b.low), high: of(a.high, b.high) }
}

function lowOf(amount: number | Range): number {
  return typeof amount === 'number' ? amount : amount.low
}

function highOf(amount: number | Range): number {
  return typeof amount === 'number' ? amount : amount.high
}
