import type { Runner } from '../science/bout.ts'
import { type ConversionTable, convertSpeed } from '../science/conversion-table.ts'
import type { Amount, Cost } from '../science/cost.ts'
import { equalEffortNotes, groundSpeedMps } from '../science/equal-effort.ts'
import { shockWords } from '../science/force.ts'
import type { Range } from '../science/range.ts'
import { isRefusal } from '../science/refusal.ts'
import { runningStepsPerMile } from '../science/steps.ts'
import { heartRateShiftBpm } from '../science/supported-cost.ts'
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

/** A costed bout as a therapist reads it on a terminal. */
export type Beside = {
  readonly runner: Runner
  readonly wear?: TissueLoad | undefined
  readonly table?: ConversionTable | undefined
}

export function costSheet(bout: Cost, beside: Beside): string[] {
  const notes = [...bout.notes, ...effortNotes(bout), ...(beside.wear?.notes ?? [])]
  const rows = [
    ...movement(bout, beside.runner),
    ...burden(bout),
    ...effort(bout, beside),
    ...wear(beside.wear),
  ]
  return [
    headline(bout),
    '',
    ...rows.map(([name, words]) => `${name.padEnd(16)}${words}`),
    '',
    shockWords,
    ...notes.map(({ kind, words, source }) => `${kind}: ${words} [${source}]`),
    ...(notes.length === 0 ? ['Nothing above is extrapolated or remembered.'] : []),
  ]
}

type Row = readonly [string, string]

const headline = (bout: Cost): string => {
  const { speedMps, bodyWeightPct, measuredBodyWeightPct } = bout
  const weight =
    measuredBodyWeightPct === 100 && bodyWeightPct === 100
      ? 'full body weight'
      : `${bodyWeightPct} % body weight carried (${supportPct(bodyWeightPct)} % support)`
  const weighed =
    measuredBodyWeightPct !== null && measuredBodyWeightPct !== 100
      ? `, weighed at ${measuredBodyWeightPct} %`
      : ''
  const gait = bout.gait === 'run' ? 'Run' : 'Walk'
  return `${gait} at ${mphFromMps(speedMps).toFixed(2)} mph (${kmhFromMps(speedMps).toFixed(2)} km/h), incline ${bout.gradePct.toFixed(2)} %, ${weight}${weighed}`
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

const burden = (bout: Cost): Row[] => {
  const rows: Row[] = [
    ['Oxygen', `${span(bout.vo2MlKgMin, 1)} mL/kg/min gross, ${span(bout.netVo2MlKgMin, 1)} net`],
    ['METs', span(bout.mets, 1)],
    ['Peak force', `${span(bout.peakForceBw, 2)} body weights`],
    ['', `${span(bout.forceRatio, 2)} of full weight at the same speed`],
  ]
  if (bout.kcalPerMin !== null && bout.netKcalPerMin !== null)
    rows.splice(2, 0, [
      'Energy',
      `${span(bout.kcalPerMin, 1)} kcal/min gross, ${span(bout.netKcalPerMin, 1)} net`,
    ])
  if (bout.bodyWeightKm !== null)
    rows.push(['Body weight', `${bout.bodyWeightKm.toFixed(2)} body-weight-kilometres`])
  return rows
}

const supportedRun = (bout: Cost): boolean => bout.gait === 'run' && bout.measuredBodyWeightPct !== 100

const settingOf = (bout: Cost) => ({
  bodyWeightPct: bout.bodyWeightPct,
  measuredBodyWeightPct: bout.measuredBodyWeightPct ?? undefined,
})

const effort = (bout: Cost, { table }: Beside): Row[] => {
  if (!supportedRun(bout)) return []
  const ground = groundSpeedMps(bout.speedMps, settingOf(bout))
  const mph = { low: mphFromMps(ground.low), high: mphFromMps(ground.high) }
  const kmh = { low: kmhFromMps(ground.low), high: kmhFromMps(ground.high) }
  const heart = heartRateShiftBpm(bout.measuredBodyWeightPct ?? bout.bodyWeightPct)
  const rows: Row[] = [['As hard as', `${span(mph, 1)} mph (${span(kmh, 1)} km/h) on the ground, level`]]
  if (!isRefusal(heart) && heart < 0)
    rows.push([
      'Heart',
      `about ${Math.round(-heart)} beats/min lower than at full weight [fleckenstein-2020]`,
    ])
  if (table === undefined) return rows
  const speed = { mph: mphFromMps, 'km/h': kmhFromMps, 'm/s': (mps: number) => mps }[table.unit](
    bout.speedMps,
  )
  const converted = convertSpeed(table, speed, bout.measuredBodyWeightPct ?? bout.bodyWeightPct)
  const words = isRefusal(converted)
    ? converted.words
    : `${speed.toFixed(1)} ${table.unit} on the ground is as hard as ${converted.toFixed(1)} ${table.unit} here`
  return [...rows, ['By your table', `${words} (${table.title})`]]
}

const effortNotes = (bout: Cost) =>
  supportedRun(bout)
    ? equalEffortNotes(groundSpeedMps(bout.speedMps, settingOf(bout)).high, settingOf(bout))
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

const span = (figure: Amount | Range, digits: number): string => {
  if (typeof figure === 'number') return figure.toFixed(digits)
  const [low, high] = [figure.low.toFixed(digits), figure.high.toFixed(digits)]
  return low === high ? low : `${low} to ${high}`
}
