import { type Bout, outsideLimits, type Runner } from './bout.ts'
import { reckonedPct, settingNotes } from './carried-weight.ts'
import { forceNotes, forceRatio, peakForceBw } from './force.ts'
import { type Effort, kcalPerMin, mets, restingVo2MlKgMin, vo2MlKgMin } from './metabolic.ts'
import type { Note } from './note.ts'
import { product, type Range, scaled } from './range.ts'
import { isRefusal, type Refusal } from './refusal.ts'
import { cadenceNotes, cadenceSpm } from './steps.ts'
import { gross, supportedCostNotes, supportedNetVo2MlKgMin } from './supported-cost.ts'

/** Plain at full weight, where one equation speaks; a range below it, where the studies disagree. */
export type Amount = number | Range

/** What a bout costs the body. The names are the fields of `cost --json` and do not change. */
export type Cost = {
  readonly gait: Bout['gait']
  readonly speedMps: number
  readonly gradePct: number
  /** Percent carried, as set. */
  readonly bodyWeightPct: number
  /** Percent carried, as weighed inside the machine; null when nobody was weighed. */
  readonly measuredBodyWeightPct: number | null
  /** Gross, per kg of whole body mass. */
  readonly vo2MlKgMin: Amount
  readonly netVo2MlKgMin: Amount
  /** Gross over 3.5. */
  readonly mets: Amount
  /** Gross; null without a mass. */
  readonly kcalPerMin: Amount | null
  readonly netKcalPerMin: Amount | null
  readonly peakForceBw: Range
  /** Peak force against full weight at the same speed. */
  readonly forceRatio: Range
  readonly cadenceSpm: Range
  /** These three are null without minutes. */
  readonly steps: Range | null
  readonly distanceM: number | null
  /** Kilometres times the fraction of body weight carried (measured, or else set). */
  readonly bodyWeightKm: number | null
  readonly notes: readonly Note[]
}

/** Everything a bout costs, or a refusal that says what is accepted. */
export function cost(bout: Bout, runner: Runner = {}): Cost | Refusal {
  const refused = outsideLimits(bout, runner)
  if (refused !== undefined) return refused
  const { gait, speedMps, gradePct, bodyWeightPct, minutes } = bout
  const carriedPct = reckonedPct(bout)
  const effort: Effort = {
    gait,
    gradePct,
    metresPerMinute: bout.metresPerMinute ?? speedMps * 60,
    trulyRunning: bout.trulyRunning === true,
  }
  const oxygen = oxygenOf(effort, carriedPct)
  if (isRefusal(oxygen)) return oxygen
  const { massKg } = runner
  const ratio = forceRatio(gait, bout)
  const stride = { gait, speedMps, bodyWeightPct: carriedPct, ownCadenceSpm: runner.ownCadenceSpm }
  const cadence = cadenceSpm(stride)
  const distanceM = minutes === undefined ? null : speedMps * 60 * minutes
  return {
    gait,
    speedMps,
    gradePct,
    bodyWeightPct,
    measuredBodyWeightPct: bout.measuredBodyWeightPct ?? null,
    vo2MlKgMin: oxygen.gross,
    netVo2MlKgMin: oxygen.net,
    mets: each(oxygen.gross, mets),
    kcalPerMin: massKg === undefined ? null : each(oxygen.gross, (vo2) => kcalPerMin(vo2, massKg)),
    netKcalPerMin: massKg === undefined ? null : each(oxygen.net, (vo2) => kcalPerMin(vo2, massKg)),
    peakForceBw: product(peakForceBw(gait, speedMps, runner.sex), ratio),
    forceRatio: ratio,
    cadenceSpm: cadence,
    steps: minutes === undefined ? null : scaled(cadence, minutes),
    distanceM,
    bodyWeightKm: distanceM === null ? null : (distanceM / 1000) * (carriedPct / 100),
    notes: [
      ...settingNotes(bout),
      ...supportedCostNotes(effort, carriedPct),
      ...forceNotes(gait, speedMps),
      ...cadenceNotes(stride),
    ],
  }
}

function oxygenOf(effort: Effort, carriedPct: number): { gross: Amount; net: Amount } | Refusal {
  if (carriedPct >= 100) {
    const full = vo2MlKgMin(effort)
    if (isRefusal(full)) return full
    return { gross: full, net: full - restingVo2MlKgMin }
  }
  const net = supportedNetVo2MlKgMin(effort, carriedPct)
  return isRefusal(net) ? net : { gross: gross(net), net }
}

const each = (figure: Amount, of: (vo2: number) => number): Amount =>
  typeof figure === 'number' ? of(figure) : { low: of(figure.low), high: of(figure.high) }
