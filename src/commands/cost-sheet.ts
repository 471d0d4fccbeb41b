import { type ConversionTable, convertSpeed } from '../science/conversion-table.ts'
import type { Cost, Figure } from '../science/cost.ts'
import type { Runner } from '../science/dose.ts'
import { equalEffortNotes, groundSpeedMps } from '../science/equal-effort.ts'
import { shockWords } from '../science/force.ts'
import type { Range } from '../science/range.ts'
import { isRefusal } from '../science/refusal.ts'
import { runningStepsPerMile } from '../science/steps.ts'
import type { TissueLoad } from '../science/tissue-load.ts'
import {
  kmhFromMps,
  metresPerMile,
  minPerKmFromMps,
  minPerMileFromMps,
  mphFromMps,
  paceWords,
  supportPct,
} from '../science/units.ts'

/** A costed dose as a therapist reads it on a terminal. */
export type Beside = {
  readonly runner: Runner
  readonly wear?: TissueLoad | undefined
  readonly table?: ConversionTable | undefined
}

export function costSheet(dose: Cost, beside: Beside): string[] {
  const notes = [...dose.notes, ...effortNotes(dose), ...(beside.wear?.notes ?? [])]
  const rows = [
    ...movement(dose, beside.runner),
    ...burden(dose),
    ...effort(dose, beside),
    ...wear(beside.wear),
  ]
  return [
    headline(dose),
    '',
    ...rows.map(([name, words]) => `${name.padEnd(16)}${words}`),
    '',
    shockWords,
    ...notes.map(({ kind, words, source }) => `${kind}: ${words} [${source}]`),
    ...(notes.length === 0 ? ['Nothing above is extrapolated or remembered.'] : []),
  ]
}

type Row = readonly [string, string]

const headline = (dose: Cost): string => {
  const { speedMps, bodyWeightPct, measuredBodyWeightPct } = dose
  const weight =
    measuredBodyWeightPct === 100 && bodyWeightPct === 100
      ? 'full body weight'
      : `${bodyWeightPct} % body weight carried (${supportPct(bodyWeightPct)} % support)`
  const weighed =
    measuredBodyWeightPct !== null && measuredBodyWeightPct !== 100
      ? `, weighed at ${measuredBodyWeightPct} %`
      : ''
  const gait = dose.gait === 'run' ? 'Run' : 'Walk'
  return `${gait} at ${mphFromMps(speedMps).toFixed(2)} mph (${kmhFromMps(speedMps).toFixed(2)} km/h), incline ${dose.gradePct.toFixed(2)} %, ${weight}${weighed}`
}

const movement = ({ speedMps, distanceM, steps, cadenceSpm, gait }: Cost, { heightCm }: Runner): Row[] => {
  const rows: Row[] = [
    [
      'Pace',
      `${paceWords(minPerMileFromMps(speedMps))} min/mile, ${paceWords(minPerKmFromMps(speedMps))} min/km`,
    ],
    ['Cadence', `${span(cadenceSpm, 0)} steps/min`],
  ]
  if (gait === 'run' && heightCm !== undefined) {
    const pace = minPerMileFromMps(speedMps)
    const byHeight = runningStepsPerMile(pace, heightCm) / pace
    rows.push(['', `(${byHeight.toFixed(0)} at full weight by height, a second opinion [hoeger-2008])`])
  }
  if (steps !== null) rows.push(['Steps', span(steps, 0)])
  if (distanceM !== null)
    rows.push([
      'Distance',
      `${(distanceM / 1000).toFixed(2)} km (${(distanceM / metresPerMile).toFixed(2)} miles)`,
    ])
  return rows
}

const burden = (dose: Cost): Row[] => {
  const rows: Row[] = [
    ['Oxygen', `${span(dose.vo2MlKgMin, 1)} mL/kg/min gross, ${span(dose.netVo2MlKgMin, 1)} net`],
    ['METs', span(dose.mets, 1)],
    ['Peak force', `${span(dose.peakForceBw, 2)} body weights`],
    ['', `${span(dose.forceRatio, 2)} of full weight at the same speed`],
  ]
  if (dose.kcalPerMin !== null && dose.netKcalPerMin !== null)
    rows.splice(2, 0, [
      'Energy',
      `${span(dose.kcalPerMin, 1)} kcal/min gross, ${span(dose.netKcalPerMin, 1)} net`,
    ])
  if (dose.bodyWeightKm !== null)
    rows.push(['Body weight', `${dose.bodyWeightKm.toFixed(2)} body-weight-kilometres`])
  return rows
}

const supportedRun = (dose: Cost): boolean => dose.gait === 'run' && dose.measuredBodyWeightPct !== 100

const settingOf = (dose: Cost) => ({
  bodyWeightPct: dose.bodyWeightPct,
  measuredBodyWeightPct: dose.measuredBodyWeightPct ?? undefined,
})

const effort = (dose: Cost, { table }: Beside): Row[] => {
  if (!supportedRun(dose)) return []
  const ground = groundSpeedMps(dose.speedMps, settingOf(dose))
  const mph = { low: mphFromMps(ground.low), high: mphFromMps(ground.high) }
  const kmh = { low: kmhFromMps(ground.low), high: kmhFromMps(ground.high) }
  const rows: Row[] = [['As hard as', `${span(mph, 1)} mph (${span(kmh, 1)} km/h) on the ground, level`]]
  if (table === undefined) return rows
  const speed = { mph: mphFromMps, 'km/h': kmhFromMps, 'm/s': (mps: number) => mps }[table.unit](
    dose.speedMps,
  )
  const converted = convertSpeed(table, speed, dose.measuredBodyWeightPct ?? dose.bodyWeightPct)
  const words = isRefusal(converted)
    ? converted.words
    : `${speed.toFixed(1)} ${table.unit} on the ground is as hard as ${converted.toFixed(1)} ${table.unit} here`
  return [...rows, ['By your table', `${words} (${table.title})`]]
}

const effortNotes = (dose: Cost) =>
  supportedRun(dose)
    ? equalEffortNotes(groundSpeedMps(dose.speedMps, settingOf(dose)).high, settingOf(dose))
    : []

const wear = (load: TissueLoad | undefined): Row[] =>
  load === undefined
    ? []
    : [
        [
          'Mechanical',
          `${load.tissue}: ${span(load.relative, 2)} of the same minutes at full weight (exponent ${span(load.exponent, 1)})`,
        ],
        [
          '',
          `${span(load.byExponent, 2)} by the exponent alone, ${span(load.bySetting, 2)} by a setting 5 % off alone`,
        ],
      ]

const span = (figure: Figure | Range, digits: number): string => {
  if (typeof figure === 'number') return figure.toFixed(digits)
  const [low, high] = [figure.low.toFixed(digits), figure.high.toFixed(digits)]
  return low === high ? low : `${low} to ${high}`
}
