import { reckonedPct, settingNotes } from './carried-weight.ts'
import { type Dose, outsideLimits, type Runner } from './dose.ts'
import { forceNotes, forceRatio, peakForceBw } from './force.ts'
import { type Effort, kcalPerMin, mets, vo2MlKgMin } from './metabolic.ts'
import type { Note } from './note.ts'
import { product, type Range, scaled } from './range.ts'
import { isRefusal, type Refusal } from './refusal.ts'
import { cadenceNotes, cadenceSpm } from './steps.ts'
import { gross, supportedCostNotes, supportedNetVo2MlKgMin } from './supported-cost.ts'

/** Plain at full weight, where one equation speaks; a range below it, where the studies disagree. */
export type Figure = number | Range

/** What a dose costs the body. The names are the fields of `cost --json` and do not change. */
export type Cost = {
  readonly gait: Dose['gait']
  readonly speedMps: number
  readonly gradePct: number
  /** Percent carried, as set. */
  readonly bodyWeightPct: number
  /** Percent carried, as weighed inside the machine; null when nobody was weighed. */
  readonly measuredBodyWeightPct: number | null
  /** Gross, per kg of whole body mass. */
  readonly vo2MlKgMin: Figure
  readonly netVo2MlKgMin: Figure
  /** Gross over 3.5. */
  readonly mets: Figure
  /** Gross; null without a mass. */
  readonly kcalPerMin: Figure | null
  readonly netKcalPerMin: Figure | null
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

/** Everything a dose costs, or a refusal that says what is accepted. */
export function cost(dose: Dose, runner: Runner = {}): Cost | Refusal {
  const refused = outsideLimits(dose, runner)
  if (refused !== undefined) return refused
  const { gait, speedMps, gradePct, bodyWeightPct, minutes } = dose
  const carriedPct = reckonedPct(dose)
  const effort: Effort = {
    gait,
    gradePct,
    metresPerMinute: dose.metresPerMinute ?? speedMps * 60,
    trulyRunning: dose.trulyRunning === true,
  }
  const oxygen = oxygenOf(effort, carriedPct)
  if (isRefusal(oxygen)) return oxygen
  const { massKg } = runner
  const ratio = forceRatio(gait, dose)
  const stride = { gait, speedMps, bodyWeightPct: carriedPct, ownCadenceSpm: runner.ownCadenceSpm }
  const cadence = cadenceSpm(stride)
  const distanceM = minutes === undefined ? null : speedMps * 60 * minutes
  return {
    gait,
    speedMps,
    gradePct,
    bodyWeightPct,
    measuredBodyWeightPct: dose.measuredBodyWeightPct ?? null,
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
      ...settingNotes(dose),
      ...supportedCostNotes(effort, carriedPct),
      ...forceNotes(gait, speedMps),
      ...cadenceNotes(stride),
    ],
  }
}

function oxygenOf(effort: Effort, carriedPct: number): { gross: Figure; net: Figure } | Refusal {
  if (carriedPct >= 100) {
    const full = vo2MlKgMin(effort)
    if (isRefusal(full)) return full
    return { gross: full, net: full - gross({ low: 0, high: 0 }).low }
  }
  const net = supportedNetVo2MlKgMin(effort, carriedPct)
  return isRefusal(net) ? net : { gross: gross(net), net }
}

const each = (figure: Figure, of: (vo2: number) => number): Figure =>
  typeof figure === 'number' ? of(figure) : { low: of(figure.low), high: of(figure.high) }
