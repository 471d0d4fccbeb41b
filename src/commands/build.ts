import type { Clinic } from '../chart/clinic.ts'
import { Tissue } from '../chart/ladder.ts'
import { openLibrary } from '../desk/library.ts'
import { type Built, type BuiltRung, build, type Wish } from '../rules/builder.ts'
import { boutsOf } from '../rules/builder-cost.ts'
import { isRefusal as cannot } from '../rules/decision.ts'
import { readMassKg, readMinutes, readPct, readSpeed } from '../science/quantities.ts'
import { isRefusal, type Refusal, refuse } from '../science/refusal.ts'
import { firstRefusal, given, readOptions, turnAway } from './options.ts'

const options = {
  'body-weight': { type: 'string', default: '50%' },
  speed: { type: 'string', default: '8 km/h' },
  minutes: { type: 'string', default: '10' },
  'goal-minutes': { type: 'string', default: '30' },
  'goal-speed': { type: 'string' },
  'goal-on': { type: 'string', default: 'ground' },
  'force-rise': { type: 'string', default: '10%' },
  'load-rise': { type: 'string', default: '20%' },
  tissue: { type: 'string', default: 'bone' },
  mass: { type: 'string' },
  day: { type: 'string' },
  shared: { type: 'string', default: 'shared' },
  json: { type: 'boolean', default: false },
} as const

/** `build`: a ladder from a start to a goal with the cost of each rung, as a draft until a therapist signs it. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const typed = readOptions(argv, options)
  if (isRefusal(typed)) return turnAway(typed)
  const { clinic } = openLibrary(String(typed.shared))
  const wish = readWish(typed, clinic)
  if (isRefusal(wish)) return turnAway(wish)
  const built = build(wish)
  if (cannot(built)) return turnAway(refuse('out-of-range', built.words))
  if (typed.json === true) out(JSON.stringify(built.ladder, null, 2))
  else for (const line of sheet(built, wish)) out(line)
  return 0
}

type Typed = Exclude<ReturnType<typeof readOptions<typeof options>>, Refusal>

function readWish(typed: Typed, clinic: Clinic): Wish | Refusal {
  const text = (name: keyof Typed) => typed[name] as string | undefined
  const bodyWeightPct = readPct(text('body-weight') ?? '', 'Body weight carried')
  const speed = readSpeed(text('speed') ?? '')
  const goalSpeed = readSpeed(text('goal-speed') ?? text('speed') ?? '')
  const minutes = readMinutes(text('minutes') ?? '')
  const goalMinutes = readMinutes(text('goal-minutes') ?? '')
  const forceRisePct = readPct(text('force-rise') ?? '', 'The rise of peak force')
  const loadRisePct = readPct(text('load-rise') ?? '', 'The rise of the load')
  const massKg = given(text('mass'), readMassKg)
  const on = text('goal-on')
  const tissue = Tissue.safeParse(text('tissue'))
  const refused = firstRefusal(
    bodyWeightPct,
    speed,
    goalSpeed,
    minutes,
    goalMinutes,
    forceRisePct,
    loadRisePct,
    massKg,
  )
  if (refused) return refused
  if (on !== 'ground' && on !== 'lbpp-treadmill')
    return refuse('unreadable', '--goal-on ground or --goal-on lbpp-treadmill is accepted.')
  if (!tissue.success) return refuse('unreadable', `--tissue ${Tissue.options.join(', ')} is accepted.`)
  if (isRefusal(bodyWeightPct) || isRefusal(speed) || isRefusal(goalSpeed))
    return refuse('say-more', 'Say a start.')
  if (isRefusal(minutes) || isRefusal(goalMinutes) || isRefusal(massKg))
    return refuse('say-more', 'Say minutes.')
  if (isRefusal(forceRisePct) || isRefusal(loadRisePct)) return refuse('say-more', 'Say limits.')
  return {
    id: `built-${tissue.data}-from-${bodyWeightPct}`,
    effective: text('day') ?? '2026-11-25',
    tissues: [tissue.data],
    diagnoses: ['any'],
    start: { bodyWeightPct, speedMps: speed.speedMps, minutes },
    goal: { minutes: goalMinutes, speedMps: goalSpeed.speedMps, on },
    most: { forceRisePct, loadRisePct },
    treadmill: clinic.treadmill,
    runner: { massKg },
  }
}

function sheet({ ladder, rungs }: Built, wish: Wish): string[] {
  return [
    ladder.title,
    ladder.about,
    '',
    'rung  place     body weight   km/h   min   bouts   peak force   rise   steps       load BW   rise   MET         changed',
    ...rungs.map((rung, i) => rungLine(rung, i + 1)),
    '',
    `${rungs.length} rungs; at most ${ladder.limits.rungsUpPer7Days} up in 7 days, ${ladder.limits.daysFromRunToRun} days from run to run.`,
    'Peak force and load are in body weights, from the light to the heavy end of the published figures; load is steps times peak force.',
    'The rise is that of the end that rises more.',
    'Less weight is not less shock at the shin [moran-2017]. The treadmill set to 100 % carries about 93 % [set-actual-2015].',
    `Limits: force +${wish.most.forceRisePct} %, load +${wish.most.loadRisePct} % a rung [common-practice].`,
    'DRAFT: nobody runs it until a therapist has signed it.',
  ]
}

function rungLine({ stage, cost, changed, forceRisePct, loadRisePct }: BuiltRung, n: number): string {
  const repeats = boutsOf(stage)
  const { mets } = cost.cost
  const met = typeof mets === 'number' ? mets.toFixed(1) : `${mets.low.toFixed(1)}-${mets.high.toFixed(1)}`
  const cell = (value: string, width: number) => value.padStart(width)
  return [
    cell(String(n), 4),
    `  ${(stage.on === 'ground' ? 'ground' : 'LBPP').padEnd(8)}`,
    cell(`${stage.bodyWeightPct} %`, 11),
    cell((stage.speedMps * 3.6).toFixed(1), 9),
    cell(String(stage.minutes), 6),
    cell(`${repeats} x ${Number((stage.minutes / repeats).toFixed(2))}`, 10),
    cell(`${cost.peakForceBw.low.toFixed(2)}-${cost.peakForceBw.high.toFixed(2)}`, 12),
    cell(`${forceRisePct.toFixed(0)} %`, 7),
    cell(cost.steps.high.toFixed(0), 8),
    cell(`${cost.loadBw.low.toFixed(0)}-${cost.loadBw.high.toFixed(0)}`, 14),
    cell(`${loadRisePct.toFixed(0)} %`, 7),
    `   ${met.padEnd(11)}`,
    ` ${changed}`,
  ].join('')
}
