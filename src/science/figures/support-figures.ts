import { expectedPct } from '../carried-weight.ts'
import { arterialPressureRiseMmHg, chamberPressureMmHg, walkingHeartRateShiftBpm } from '../circulation.ts'
import { machineSpeedMps } from '../equal-effort.ts'
import { harnessNetFractions, netFraction, stageTestVo2MlKgMin, trainedVo2MlKgMin } from '../net-fraction.ts'
import type { Range } from '../range.ts'
import { isRefusal } from '../refusal.ts'
import { gross, heartRateShiftBpm, lactateMmolL, supportedNetVo2MlKgMin } from '../supported-cost.ts'
import { carriedKg, mpsFromKmh, supportPct } from '../units.ts'
import type { Figure } from './figure.ts'

/** Gross cost at a body weight against full weight, at the mean of 10-18 km/h. */
const grossRatio = (bodyWeightPct: number) => {
  const effort = { gait: 'run', metresPerMinute: (14 * 1000) / 60, gradePct: 0 } as const
  const [part, full] = [supportedNetVo2MlKgMin(effort, bodyWeightPct), supportedNetVo2MlKgMin(effort, 100)]
  if (isRefusal(part)) return part
  if (isRefusal(full)) return full
  return { low: gross(part).low / gross(full).low, high: gross(part).high / gross(full).high }
}

/** The model's factor between two machine settings for one ground effort, cheapest and dearest reading. */
const speedFactor = (groundKmh: number, bodyWeightPct: number): Range => {
  const ground = mpsFromKmh(groundKmh)
  const machine = machineSpeedMps(ground, { bodyWeightPct })
  return { low: machine.low / ground, high: machine.high / ground }
}

const climbUnderSupport = (): Range => {
  const at = (gradePct: number) =>
    supportedNetVo2MlKgMin({ gait: 'run', metresPerMinute: (14 * 1000) / 60, gradePct }, 85)
  const [level, up] = [at(0), at(7)]
  if (isRefusal(level) || isRefusal(up)) throw new Error('a studied grade was refused')
  return { low: up.low - level.low, high: up.high - level.high }
}

// biome-ignore format: one row, one line
export const supportFigures: readonly Figure[] = [
  { row: 'L29', quantity: 'supported walking test, stage 1, no support, VO2', source: 'lee-2016', label: 'derived', published: 14.65, tolerance: 0.01, compute: () => stageTestVo2MlKgMin(1, 0) },
  { row: 'L30', quantity: 'stage 5, no support, VO2', source: 'lee-2016', label: 'derived', published: 25.65, tolerance: 0.01, compute: () => stageTestVo2MlKgMin(5, 0) },
  { row: 'L30', quantity: 'stage 5, 80 % support, VO2', source: 'lee-2016', label: 'derived', published: 14.45, tolerance: 0.01, compute: () => stageTestVo2MlKgMin(5, 80) },
  { row: 'L31', quantity: 'gross VO2 at 80 % body weight against full, running', source: 'fleckenstein-2020', label: 'read', published: 0.825, tolerance: 0.1, compute: () => grossRatio(80) },
  { row: 'L32', quantity: 'gross VO2 at 60 % body weight against full, running', source: 'fleckenstein-2020', label: 'read', published: 0.696, tolerance: 0.1, compute: () => grossRatio(60) },
  { row: 'L33', quantity: 'net VO2 at 80 % body weight against full, elite', source: 'mcneill-2015', label: 'read', published: 0.66, tolerance: 0.15, compute: () => netFraction('run', 80) },
  { row: 'L34', quantity: 'net VO2 at 60 % body weight against full, elite', source: 'mcneill-2015', label: 'read', published: 0.62, tolerance: 0.1, compute: () => netFraction('run', 60) },
  { row: 'N31-34', quantity: 'net share at 80 % body weight, across studies', source: 'ijesab-2-8', label: 'derived', published: { low: 0.61, high: 0.85 }, tolerance: 0.01, compute: () => netFraction('run', 80) },
  { row: 'N-T1', quantity: 'harness lines at 80 %: fixed and rolling', source: 'teunissen-2007', label: 'derived', published: { low: 0.842, high: 0.846 }, tolerance: 0.002, compute: () => ({ low: harnessNetFractions(80).fixed, high: harnessNetFractions(80).rolling }) },
  { row: 'N-T1', quantity: 'harness lines at 60 %: fixed and rolling', source: 'teunissen-2007', label: 'derived', published: { low: 0.68, high: 0.7 }, tolerance: 0.002, compute: () => ({ low: harnessNetFractions(60).fixed, high: harnessNetFractions(60).rolling }) },
  { row: 'N-T1', quantity: 'harness lines at full weight, neither is 1: rolling and fixed', source: 'teunissen-2007', label: 'derived', published: { low: 0.992, high: 1.004 }, tolerance: 0.001, compute: () => ({ low: harnessNetFractions(100).rolling, high: harnessNetFractions(100).fixed }) },
  { row: 'N', quantity: 'net share running at 25 % under suspension', source: 'farley-1992', label: 'read', published: 0.28, tolerance: 0.001, compute: () => netFraction('run', 25) },
  { row: 'N', quantity: 'net share walking at 25 % under suspension', source: 'farley-1992', label: 'read', published: 0.67, tolerance: 0.001, compute: () => netFraction('walk', 25) },
  { row: 'N', quantity: 'net share walking 3 mph at 75 %', source: 'ijesab-2-8', label: 'derived', published: 0.808, tolerance: 0.01, compute: () => netFraction('walk', 75) },
  { row: 'N', quantity: 'net share running 4.5 mph at 75 %', source: 'ijesab-2-8', label: 'derived', published: 0.617, tolerance: 0.001, compute: () => netFraction('run', 75) },
  { row: 'N', quantity: '0 to 7 % grade at 80-90 % body weight, mL/kg/min', source: 'fleckenstein-2021', label: 'read', published: 6.8, tolerance: 0.8, compute: climbUnderSupport },
  { row: 'L35', quantity: 'heart rate at 80 %, beats/min', source: 'fleckenstein-2020', label: 'read', published: -15, tolerance: 8, compute: () => heartRateShiftBpm(80) },
  { row: 'L35', quantity: 'heart rate at 60 %, beats/min', source: 'fleckenstein-2020', label: 'read', published: -27, tolerance: 8, compute: () => heartRateShiftBpm(60) },
  { row: 'L36', quantity: 'lactate at 80 %, mmol/L', source: 'fleckenstein-2020', label: 'read', published: 1.5, tolerance: 1e-9, compute: () => lactateMmolL(80) },
  { row: 'L36', quantity: 'lactate at 60 %, mmol/L', source: 'fleckenstein-2020', label: 'read', published: 1.1, tolerance: 1e-9, compute: () => lactateMmolL(60) },
  { row: 'L37', quantity: 'equal-effort speed at 85 % against 100 % on the machine, men', source: 'gojanovic-2012', label: 'read', published: 1.076, tolerance: 0.04, compute: () => speedFactor(21, 85) },
  { row: 'L37', quantity: 'the same, women', source: 'gojanovic-2012', label: 'read', published: 1.098, tolerance: 0.04, compute: () => speedFactor(19.3, 85) },
  { row: 'L38', quantity: 'machine at 100 % against an ordinary treadmill, men', source: 'gojanovic-2012', label: 'read', published: 1.066, tolerance: 0.04, compute: () => speedFactor(19.7, 100) },
  { row: 'L38', quantity: 'the same, women', source: 'gojanovic-2012', label: 'read', published: 1.084, tolerance: 0.04, compute: () => speedFactor(17.8, 100) },
  { row: 'N-set', quantity: 'carried at a setting of 100 %', source: 'set-actual-2015', label: 'read', published: 93.15, tolerance: 1e-9, compute: () => expectedPct(100) },
  { row: 'N-set', quantity: 'carried at a setting of 80 %', source: 'set-actual-2015', label: 'read', published: 80, tolerance: 1e-9, compute: () => expectedPct(80) },
  { row: 'N-set', quantity: 'carried at a setting of 30 %', source: 'set-actual-2015', label: 'read', published: 35.75, tolerance: 1e-9, compute: () => expectedPct(30) },
  { row: 'N-set', quantity: 'carried at a setting of 20 %', source: 'set-actual-2015', label: 'read', published: 27.67, tolerance: 1e-9, compute: () => expectedPct(20) },
  { row: 'L75', quantity: 'chamber pressure at 75 %, mmHg', source: 'lbpp-blood-pressure', label: 'derived', published: 10.95, tolerance: 0.1, compute: () => chamberPressureMmHg(75) },
  { row: 'L75', quantity: 'chamber pressure at 50 %, mmHg', source: 'lbpp-blood-pressure', label: 'derived', published: 23.03, tolerance: 0.1, compute: () => chamberPressureMmHg(50) },
  { row: 'L75', quantity: 'chamber pressure at 25 %, mmHg', source: 'lbpp-blood-pressure', label: 'derived', published: 35.07, tolerance: 0.1, compute: () => chamberPressureMmHg(25) },
  { row: 'L76', quantity: 'heart rate walking 3 mph under 50 mmHg, change', source: 'cutuk-2006', label: 'read', published: -15, tolerance: 5, compute: walkingHeartRateShiftBpm },
  { row: 'L77', quantity: 'arterial pressure, upright cycling at 50 mmHg', source: 'jap-1998', label: 'read', published: 12, tolerance: 3, compute: () => arterialPressureRiseMmHg('upright-cycling', 50) },
  { row: 'L77', quantity: 'arterial pressure, upright cycling at 75 mmHg', source: 'jap-1998', label: 'read', published: 25, tolerance: 3, compute: () => arterialPressureRiseMmHg('upright-cycling', 75) },
  { row: 'N77', quantity: 'arterial pressure, running at 40 mmHg', source: 'stucky-2018', label: 'read', published: 0, tolerance: 1e-9, compute: () => arterialPressureRiseMmHg('running', 40) },
  { row: 'C57', quantity: 'gross VO2 change at 80 %, per cent', source: 'fleckenstein-2020', label: 'derived', published: -17.5, tolerance: 0.1, compute: () => 100 * (trainedVo2MlKgMin(80) / trainedVo2MlKgMin(100) - 1) },
  { row: 'C57', quantity: 'gross VO2 change at 60 %, per cent', source: 'fleckenstein-2020', label: 'derived', published: -30.4, tolerance: 0.1, compute: () => 100 * (trainedVo2MlKgMin(60) / trainedVo2MlKgMin(100) - 1) },
  { row: 'C30', quantity: '72.5 kg at 65 %, kg carried', source: 'definition', label: 'derived', published: 47.125, tolerance: 0.001, compute: () => carriedKg(72.5, 65) },
  { row: 'C31', quantity: '65 % carried, support %', source: 'definition', label: 'derived', published: 35, tolerance: 0, compute: () => supportPct(65) },
]
