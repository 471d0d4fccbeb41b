import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { run } from '../../src/commands/cost.ts'
import { asked } from './asked.ts'

const session = [
  '--gait',
  'run',
  '--speed',
  '7 mph',
  '--incline',
  '0%',
  '--body-weight',
  '65%',
  '--minutes',
  '12',
]
const fields = [
  'speedMps',
  'gradePct',
  'bodyWeightPct',
  'vo2MlKgMin',
  'netVo2MlKgMin',
  'mets',
  'kcalPerMin',
  'peakForceBw',
  'forceRatio',
  'cadenceSpm',
  'steps',
  'distanceM',
  'bodyWeightKm',
  'notes',
]

test('an ordinary session at 65 % and 7 mph is told in both units, as ranges, without a warning', async () => {
  const { exit, out, err } = await asked(run, [
    ...session,
    '--mass',
    '70kg',
    '--height',
    '178cm',
    '--sex',
    'f',
  ])
  expect([exit, err]).toEqual([0, ''])
  expect(out).toMatch(/8:34 min\/mile, 5:20 min\/km/)
  expect(out).toMatch(/2\.25 km/)
  expect(out).toMatch(/METs +7\.6 to 8\.9/)
  expect(out).toMatch(/1\.46 body-weight-kilometres/)
  expect(out).toMatch(/less weight is not less shock/i)
  expect(out).not.toMatch(/caution|remembered:/)
})

test('the record has its stable fields: ranges below full weight, and no note on an ordinary session', async () => {
  const { exit, out } = await asked(run, [...session, '--mass', '70kg', '--json'])
  const record = JSON.parse(out)
  expect(exit).toBe(0)
  for (const field of fields) expect(record).toHaveProperty(field)
  for (const field of [
    'vo2MlKgMin',
    'netVo2MlKgMin',
    'mets',
    'kcalPerMin',
    'peakForceBw',
    'forceRatio',
    'cadenceSpm',
    'steps',
  ])
    expect(record[field]).toEqual({ low: expect.any(Number), high: expect.any(Number) })
  expect(record.notes).toEqual([])
})

test('without a body weight it is the ground: a plain number, as in the worked example [acsm-worked-b]', async () => {
  const { out } = await asked(run, ['--gait', 'run', '--speed', '8 mph', '--mass', '50kg', '--json'])
  const record = JSON.parse(out)
  expect(record.vo2MlKgMin).toBeCloseTo(46.38, 9)
  expect(record.netKcalPerMin).toBeCloseTo(10.72, 9)
  expect(record.forceRatio).toEqual({ low: 1, high: 1 })
  expect(record.notes).toEqual([])
})

test('the machine set to 100 % is a number with a caution', async () => {
  const { out } = await asked(run, ['--gait', 'run', '--speed', '8 mph', '--body-weight', '100%', '--json'])
  const record = JSON.parse(out)
  expect(record.vo2MlKgMin).toBeCloseTo(46.38, 9)
  expect(record.notes).toMatchObject([{ kind: 'caution', source: 'set-actual-2015' }])
})

test('an athlete weighed in the machine is reckoned by the scale', async () => {
  const { out } = await asked(run, [...session, '--measured-body-weight', '70%', '--json'])
  const record = JSON.parse(out)
  expect(record.bodyWeightPct).toBe(65)
  expect(record.measuredBodyWeightPct).toBe(70)
  expect(record.forceRatio.low).toBe(0.7)
})

describe('inverses', () => {
  const of = async (...argv: string[]) => {
    const { exit, out } = await asked(run, [...argv, '--json'])
    expect(exit).toBe(0)
    return JSON.parse(out)
  }
  test('49.3 at 7 mph is 4.90 %, never 2.5 % [acsm-worked-d]', async () => {
    const record = await of('--inverse', 'vo2=49.3', '--gait', 'run', '--speed', '7 mph')
    expect(record.gradePct.toFixed(2)).toBe('4.90')
    expect(record.vo2MlKgMin).toBeCloseTo(49.3, 9)
  })
  test('8 MET on the level is 122.5 m/min, when it truly is a run [acsm-worked-c]', async () => {
    const record = await of('--inverse', 'mets=8', '--gait', 'run', '--incline', '0%', '--truly-running')
    expect(record.speedMps * 60).toBeCloseTo(122.5, 9)
  })
  test('7 MET walking at 10 % is 75 m/min [acsm-worked-d]', async () => {
    const record = await of('--inverse', 'mets=7', '--gait', 'walk', '--incline', '10%')
    expect(record.speedMps * 60).toBeCloseTo(75, 9)
  })
})

describe('bad input ends with 2 and one line that says what is accepted', () => {
  test.each([
    [['--gait', 'run', '--speed', '7'], /'7 mph'/],
    [['--gait', 'hop', '--speed', '7 mph'], /--gait run or --gait walk/],
    [['--gait', 'run'], /--speed "7 mph"/],
    [['--gait', 'run', '--speed', '7 mph', '--body-weight', '65'], /'65%'/],
    [['--gait', 'run', '--speed', '7 mph', '--body-weight', '19%'], /20% to 100%/],
    [['--gait', 'run', '--speed', '7 mph', '--body-weight', '65.5%'], /steps of 1 %/],
    [['--gait', 'run', '--speed', '7 mph', '--incline', '3'], /percentage with its sign/],
    [['--gait', 'run', '--speed', '7 mph', '--incline=-1%'], /Incline from 0% to 15%/],
    [['--gait', 'run', '--speed', '7 mph', '--mass', '70'], /'70kg'/],
    [['--gait', 'run', '--speed', '7 mph', '--height', '178'], /'178cm'/],
    [['--gait', 'run', '--speed', '7 mph', '--sex', 'x'], /--sex f or m/],
    [['--gait', 'run', '--speed', '7 mph', '--cadence', '168'], /'168 spm'/],
    [['--gait', 'run', '--speed', '4 mph'], /--truly-running/],
    [['--gait', 'walk', '--speed', '7 mph'], /50 to 100 m\/min/],
    [['--gait', 'run', '--speed', '7 mph', '--inverse', 'vo2'], /vo2=49\.3/],
    [['--gait', 'run', '--speed', '7 mph', '--inverse', 'vo2=20'], /on the level/],
    [
      ['--gait', 'run', '--speed', '7 mph', '--inverse', 'vo2=40', '--body-weight', '65%'],
      /full body weight only/,
    ],
    [['--gait', 'run', '--speed', '7 mph', '--tissue', 'skin'], /bone, cartilage/],
    [['--gait', 'run', '--speed', '7 mph', '--tissue', 'bone'], /minutes/],
    [['--gait', 'run', '--speed', '7 mph', '--pace', '3'], /Unknown option.*--speed/],
    [['--gait', 'run', '--speed', '7 mph', '--conversion-table', '/nowhere.json'], /cannot be read/],
  ])('%j', async (argv, words) => {
    const { exit, out, err } = await asked(run, argv)
    expect([exit, out]).toEqual([2, ''])
    expect(err).toMatch(words)
    expect(err.trimEnd().split('\n')).toHaveLength(1)
  })
})

test('mechanical load is a band whose remembered exponent is said [edwards-bone-exponent]', async () => {
  const { out } = await asked(run, [...session, '--tissue', 'bone'])
  expect(out).toMatch(/bone: .* to .* of the same minutes at full weight/)
  expect(out).toMatch(/remembered: .*bone/)
})

test('a clinic’s own conversion table answers beside the range, and a broken one is refused', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'table-'))
  const file = join(folder, 'ours.json')
  const table = {
    title: 'Ours',
    source: 'invented',
    unit: 'mph',
    roundedTo: 0,
    groundSpeed: [6, 8],
    bodyWeightPct: [60, 80],
    machineSpeed: [
      [8, 7],
      [10, 9],
    ],
  }
  await writeFile(file, JSON.stringify(table))
  const good = await asked(run, [...session, '--conversion-table', file])
  expect(good.out).toMatch(/7\.0 mph on the ground is as hard as 8\.8 mph here \(Ours\)/)
  await writeFile(file, JSON.stringify({ ...table, bodyWeightPct: [80, 60] }))
  expect((await asked(run, [...session, '--conversion-table', file])).exit).toBe(2)
  await rm(folder, { recursive: true })
})
