import { readFile } from 'node:fs/promises'
import { againstFullWeight } from '../science/against-full-weight.ts'
import type { Runner } from '../science/bout.ts'
import { type ConversionTable, readConversionTable } from '../science/conversion-table.ts'
import { type Cost, cost } from '../science/cost.ts'
import { type Asked, costAtVo2 } from '../science/inverse-cost.ts'
import type { Gait } from '../science/metabolic.ts'
import { restingVo2MlKgMin } from '../science/metabolic.ts'
import {
  readCadenceSpm,
  readHeightCm,
  readMassKg,
  readMinutes,
  readPct,
  readSpeed,
} from '../science/quantities.ts'
import { isRefusal, type Refusal, refuse } from '../science/refusal.ts'
import { type Tissue, tissues } from '../science/tissue-load.ts'
import { costSheet } from './cost-sheet.ts'
import { firstRefusal, given, readOptions, turnAway } from './options.ts'

const options = {
  gait: { type: 'string' },
  speed: { type: 'string' },
  incline: { type: 'string' },
  'body-weight': { type: 'string' },
  'measured-body-weight': { type: 'string' },
  minutes: { type: 'string' },
  mass: { type: 'string' },
  height: { type: 'string' },
  sex: { type: 'string' },
  cadence: { type: 'string' },
  'truly-running': { type: 'boolean' },
  inverse: { type: 'string' },
  tissue: { type: 'string' },
  'conversion-table': { type: 'string' },
  json: { type: 'boolean' },
} as const

/**
 * What a dose costs the body, or with `--inverse` the dose that costs so much. Without `--body-weight` it is
 * the ground or an ordinary treadmill; `--body-weight 100%` is the machine set to 100, which is not the same.
 */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const typed = readOptions(argv, options)
  if (isRefusal(typed)) return turnAway(typed)
  const asked = readAsked(typed)
  const runner = readRunner(typed)
  const target = given(typed.inverse, readTarget)
  const tissue = given(typed.tissue, readTissue)
  const table =
    typed['conversion-table'] === undefined ? undefined : await readTable(typed['conversion-table'])
  const refused = firstRefusal(asked, runner, target, tissue, table)
  if (refused !== undefined || isRefusal(asked) || isRefusal(runner)) return turnAway(refused ?? nothing)
  if (isRefusal(target) || isRefusal(tissue) || isRefusal(table)) return turnAway(nothing)
  const answer = target === undefined ? forward(asked, runner) : costAtVo2(target, asked, runner)
  if (isRefusal(answer)) return turnAway(answer)
  const wear = tissue === undefined ? undefined : againstFullWeight(answer, tissue)
  if (isRefusal(wear)) return turnAway(wear)
  if (typed.json === true) {
    const notes = [...answer.notes, ...(wear?.notes ?? [])]
    out(JSON.stringify(wear === undefined ? answer : { ...answer, tissueLoad: wear, notes }, null, 2))
    return 0
  }
  for (const line of costSheet(answer, { runner, wear, table })) out(line)
  return 0
}

const nothing = refuse(
  'say-more',
  'Say what to reckon: --gait run --speed "7 mph" --body-weight 65% --minutes 12.',
)

type Typed = Readonly<Partial<Record<keyof typeof options, string | boolean>>>
const text = (typed: Typed, name: keyof typeof options): string | undefined => {
  const value = typed[name]
  return typeof value === 'string' ? value : undefined
}

function readAsked(typed: Typed): Asked | Refusal {
  const gait = readGait(text(typed, 'gait'))
  const speed = given(text(typed, 'speed'), readSpeed)
  const gradePct = given(text(typed, 'incline'), (t) => readPct(t, 'An incline'))
  const set = given(text(typed, 'body-weight'), (t) => readPct(t, 'Body weight carried'))
  const measured = given(text(typed, 'measured-body-weight'), (t) => readPct(t, 'Measured body weight'))
  const minutes = given(text(typed, 'minutes'), readMinutes)
  if (isRefusal(gait)) return gait
  if (isRefusal(speed)) return speed
  if (isRefusal(gradePct)) return gradePct
  if (isRefusal(set)) return set
  if (isRefusal(measured)) return measured
  if (isRefusal(minutes)) return minutes
  const ground = set === undefined && measured === undefined
  return {
    gait,
    gradePct,
    minutes,
    speedMps: speed?.speedMps,
    metresPerMinute: speed?.metresPerMinute,
    // Weighed but no setting told: the nearest setting stands for it; every figure follows the scale.
    bodyWeightPct: set ?? Math.max(20, Math.round(measured ?? 100)),
    measuredBodyWeightPct: ground ? 100 : measured,
    trulyRunning: typed['truly-running'] === true,
  }
}

function readRunner(typed: Typed): Runner | Refusal {
  const massKg = given(text(typed, 'mass'), readMassKg)
  const heightCm = given(text(typed, 'height'), readHeightCm)
  const ownCadenceSpm = given(text(typed, 'cadence'), readCadenceSpm)
  const sex = text(typed, 'sex')
  if (isRefusal(massKg)) return massKg
  if (isRefusal(heightCm)) return heightCm
  if (isRefusal(ownCadenceSpm)) return ownCadenceSpm
  if (sex !== undefined && sex !== 'f' && sex !== 'm')
    return refuse('unreadable', '--sex f or m is accepted.')
  return { massKg, heightCm, ownCadenceSpm, sex }
}

function forward(asked: Asked, runner: Runner): Cost | Refusal {
  const { speedMps, gradePct = 0, ...rest } = asked
  return speedMps === undefined ? nothing : cost({ ...rest, speedMps, gradePct }, runner)
}

const readGait = (typed: string | undefined): Gait | Refusal =>
  typed === 'run' || typed === 'walk' ? typed : refuse('unreadable', '--gait run or --gait walk is accepted.')

/** `vo2=49.3` (mL/kg/min) or `mets=8`, gross. */
function readTarget(typed: string): number | Refusal {
  const found = /^(vo2|mets)=(\d+(?:\.\d+)?)$/i.exec(typed.trim())
  if (found === null)
    return refuse('unreadable', '--inverse vo2=49.3 (mL/kg/min) or --inverse mets=8 is accepted.')
  return Number(found[2]) * (String(found[1]).toLowerCase() === 'mets' ? restingVo2MlKgMin : 1)
}

function readTissue(typed: string): Tissue | Refusal {
  return (
    tissues.find((tissue) => tissue === typed) ??
    refuse('unreadable', `--tissue ${tissues.join(', ')} is accepted.`)
  )
}

async function readTable(path: string): Promise<ConversionTable | Refusal> {
  try {
    return readConversionTable(JSON.parse(await readFile(path, 'utf8')))
  } catch (error) {
    return refuse(
      'unreadable',
      `${path} cannot be read as a conversion table: ${error instanceof Error ? error.message : error}`,
    )
  }
}
