import type { Chart } from '../chart/chart.ts'
import type { Dose, Range } from '../chart/dose.ts'
import { type DoseCost, doseCost } from '../rules/dose-cost.ts'
import { shockWords } from '../science/force.ts'
import { rangeInWords, speedInWords } from './words.ts'

/** What today's run costs the body, in two lines for whoever runs it; nothing where it cannot be reckoned. */
export function costInWords(dose: Dose, chart: Chart): string | undefined {
  const found = doseCost(dose, { sex: chart.enrolment?.sex })
  return found && `${forceInWords(found)} ${effortInWords(found)} Ranges span the published studies.`
}

/** The same with oxygen, and with what is extrapolated or remembered, for a therapist. */
export function costForTherapist(dose: Dose, chart: Chart): string {
  const found = doseCost(dose, { sex: chart.enrolment?.sex })
  if (!found) return 'Cost: not reckoned, because no speed is prescribed or the equations do not reach it.'
  const notes = found.notes.map(({ kind, words, source }) => `${kind}: ${words} [${source}]`)
  return [
    `${forceInWords(found)} Oxygen ${rangeInWords(found.vo2MlKgMin)} mL/kg/min. ${effortInWords(found)}`,
    shockWords,
    ...notes,
  ].join('\n')
}

function forceInWords({ peakForceBw, forceRatio, steps }: DoseCost): string {
  const share = { low: 100 * forceRatio.low, high: 100 * forceRatio.high }
  const against = share.low >= 99.5 ? '' : `, ${whole(share)} % of full weight at that speed`
  return `Peak force ${two(peakForceBw)} body weights${against}; ${whole(steps)} steps of running.`
}

function effortInWords({ asHardAsMps }: DoseCost): string {
  return asHardAsMps ? `As hard as ${speedInWords(asHardAsMps)} on level ground.` : ''
}

function two({ low, high }: Range): string {
  return low.toFixed(2) === high.toFixed(2) ? low.toFixed(2) : `${low.toFixed(2)} to ${high.toFixed(2)}`
}

function whole({ low, high }: Range): string {
  return low.toFixed(0) === high.toFixed(0) ? low.toFixed(0) : `${low.toFixed(0)} to ${high.toFixed(0)}`
}
