import { z } from 'zod'
import written from '../../shared/tables/response-curve.json' with { type: 'json' }
import { CitedNumber, CitedSpan } from './cited.ts'
import { type Refusal, refuse } from './refusal.ts'

/**
 * The highest load one athlete tolerates, from past sessions and the pain of the 24 hours after each.
 * A description for therapists: it opens nothing.
 *
 *     chance of a provoked answer at load x = e + (1 - 2e) / (1 + (T / x)^(1/s))
 *
 * T, the highest tolerated load, is where provoked becomes as likely as settled; s is how much days differ;
 * e is the small share of answers that have nothing to do with the load, without which a single bad night
 * after an easy run would say that load hardly matters, and RAISE the guess. T and s are weighed on a fixed
 * grid against a documented prior (`shared/tables/response-curve.json`): a curve that rises with load by
 * construction, needs no chance and no iteration, and stays honest with few sessions.
 *
 * Why not centred isotonic regression [oron-2017]: doses follow earlier answers here, which bends observed
 * rates at each dose [adaptive-dose-bias]; a likelihood is untouched by how the next dose was chosen.
 */
export type Session = {
  /** Any one unit throughout, such as body-weight-kilometres or relative tissue load. */
  readonly load: number
  /** Worst pain within 24 hours, 0-10. */
  readonly painAfter: number
}

export type ResponseCurve =
  | { readonly verdict: 'too-little'; readonly sessions: number; readonly words: string }
  | {
      readonly verdict: 'described'
      readonly sessions: number
      /** Posterior median and 80 % band of the highest tolerated load, in the unit of the sessions. */
      readonly highestTolerated: { readonly best: number; readonly low: number; readonly high: number }
      /** True while no session has provoked: the upper end is then the prior's, not the athlete's. */
      readonly openAbove: boolean
      readonly words: string
    }

const table = z
  .strictObject({
    fewestSessions: CitedNumber,
    thresholdOverFirst: CitedNumber,
    thresholdSpread: CitedNumber,
    thresholdGrid: CitedSpan,
    blur: CitedSpan,
    strayShare: CitedNumber,
    credible: CitedSpan,
  })
  .parse(written)

/**
 * Sessions in the order they were run: the prior hangs on the first load, chosen before any answer.
 * `painLimit` is what the protocol tolerates within 24 hours; more than that is a provoked answer.
 */
export function responseCurve(sessions: readonly Session[], painLimit: number): ResponseCurve | Refusal {
  const count = sessions.length
  if (sessions.some(({ load }) => !(load > 0)))
    return refuse('out-of-range', 'Every session needs a load above 0.')
  const first = sessions[0]
  if (first === undefined || count < table.fewestSessions.value)
    return {
      verdict: 'too-little',
      sessions: count,
      words: `Too little to go on: ${count} of at least ${table.fewestSessions.value} sessions.`,
    }
  const answers = sessions.map(({ load, painAfter }) => ({
    logLoad: Math.log(load / first.load),
    provoked: painAfter > painLimit,
  }))
  const [lowEnd, highEnd] = table.credible.value
  const [low, best, high] = quantiles(posterior(answers), [lowEnd, 0.5, highEnd]).map(
    (t) => first.load * Math.exp(t),
  )
  const openAbove = answers.every(({ provoked }) => !provoked)
  return {
    verdict: 'described',
    sessions: count,
    highestTolerated: { best: best ?? Number.NaN, low: low ?? Number.NaN, high: high ?? Number.NaN },
    openAbove,
    words: openAbove
      ? 'No session has provoked yet: the upper end only says what is usual, not what this athlete bears.'
      : 'The load at which a provoked answer becomes as likely as a settled one, with its 80 % band.',
  }
}

type Answer = { readonly logLoad: number; readonly provoked: boolean }

const spaced = (low: number, high: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1))

const logOf = ([low, high]: readonly [number, number]): readonly [number, number] => [
  Math.log(low),
  Math.log(high),
]

const thresholds = spaced(...logOf(table.thresholdGrid.value), 241)
const blurs = spaced(...logOf(table.blur.value), 13).map(Math.exp)
const stray = table.strayShare.value
const priorCentre = Math.log(table.thresholdOverFirst.value)

/** Weight of each threshold of the grid, blur summed out; weights add to 1. */
function posterior(answers: readonly Answer[]): readonly number[] {
  const logs = thresholds.map((t) => {
    const prior = -0.5 * ((t - priorCentre) / table.thresholdSpread.value) ** 2
    return blurs.map((s) => prior + likelihood(answers, t, s))
  })
  const highest = Math.max(...logs.flat())
  const weights = logs.map((row) => row.reduce((total, log) => total + Math.exp(log - highest), 0))
  const total = weights.reduce((a, b) => a + b, 0)
  return weights.map((weight) => weight / total)
}

const likelihood = (answers: readonly Answer[], threshold: number, blur: number): number =>
  answers.reduce((total, { logLoad, provoked }) => {
    const chance = stray + (1 - 2 * stray) / (1 + Math.exp((threshold - logLoad) / blur))
    return total + Math.log(provoked ? chance : 1 - chance)
  }, 0)

/** Thresholds below which the given shares of the weight lie, read straight between grid points. */
function quantiles(weights: readonly number[], shares: readonly number[]): readonly number[] {
  let below = 0
  const middles = weights.map((weight) => {
    const middle = below + weight / 2
    below += weight
    return middle
  })
  return shares.map((share) => {
    const upper = Math.max(
      1,
      middles.findIndex((middle) => middle >= share),
    )
    const [a, b] = [middles[upper - 1] ?? 0, middles[upper] ?? 1]
    const [from, to] = [thresholds[upper - 1] ?? 0, thresholds[upper] ?? 0]
    return from + (to - from) * Math.min(1, Math.max(0, (share - a) / (b - a || 1)))
  })
}
