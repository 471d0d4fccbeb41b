import {
  gradePctForVo2,
  kcalPerMin,
  marathonerVo2MlKgMin,
  metresPerMinuteAsPublished,
  metresPerMinuteForVo2,
  mets,
  restingVo2MlKgMin,
  vo2MlKgMin,
} from '../metabolic.ts'
import { isRefusal, type Refusal } from '../refusal.ts'
import {
  kmFromMiles,
  kmhFromMps,
  metresPerMile,
  minPerKmFromMps,
  minPerMileFromMps,
  mphFromMps,
  mpsFromKmh,
  mpsFromMinPerMile,
  mpsFromMph,
} from '../units.ts'
import type { Figure } from './figure.ts'

const run = (mph: number, gradePct = 0) =>
  vo2MlKgMin({ gait: 'run', metresPerMinute: metresPerMinuteAsPublished(mph), gradePct })
const walk = (mph: number, gradePct = 0) =>
  vo2MlKgMin({ gait: 'walk', metresPerMinute: metresPerMinuteAsPublished(mph), gradePct })
const then = (answer: number | Refusal, next: (value: number) => number): number | Refusal =>
  isRefusal(answer) ? answer : next(answer)
const net = (vo2: number): number => vo2 - restingVo2MlKgMin
const jogAt8Met = () => metresPerMinuteForVo2(28, { gait: 'run', gradePct: 0, trulyRunning: true })
const walkAt7Met = () => metresPerMinuteForVo2(24.5, { gait: 'walk', gradePct: 10 })
const mphAsPublished = (metresPerMinute: number): number => metresPerMinute / metresPerMinuteAsPublished(1)

// biome-ignore format: one row, one line
export const metabolicFigures: readonly Figure[] = [
  { row: 'L1', quantity: '1 mph, m/s', source: 'definition', label: 'read', published: 0.44704, tolerance: 1e-9, compute: () => mpsFromMph(1) },
  { row: 'L2', quantity: '1 mph, exact m/min', source: 'definition', label: 'read', published: 26.8224, tolerance: 1e-6, compute: () => mpsFromMph(1) * 60 },
  { row: 'L2', quantity: '1 mph, m/min as the equations round it', source: 'acsm-2020', label: 'read', published: 26.8, tolerance: 1e-9, compute: () => metresPerMinuteAsPublished(1) },
  { row: 'L3', quantity: '8:00 min/mile, m/s', source: 'mcneill-2015', label: 'read', published: 3.35, tolerance: 0.005, compute: () => mpsFromMinPerMile(8) },
  { row: 'L4', quantity: '7:00 min/mile, m/s', source: 'mcneill-2015', label: 'read', published: 3.84, tolerance: 0.01, compute: () => mpsFromMinPerMile(7) },
  { row: 'L5', quantity: '6:00 min/mile, m/s', source: 'mcneill-2015', label: 'read', published: 4.47, tolerance: 0.005, compute: () => mpsFromMinPerMile(6) },
  { row: 'L6', quantity: '5:00 min/mile, m/s', source: 'mcneill-2015', label: 'read', published: 5.36, tolerance: 0.006, compute: () => mpsFromMinPerMile(5) },
  { row: 'L7', quantity: '4 and 10 mph, km/h', source: 'kline-2015', label: 'read', published: { low: 6.4, high: 16.1 }, tolerance: 0.05, compute: () => ({ low: kmhFromMps(mpsFromMph(4)), high: kmhFromMps(mpsFromMph(10)) }) },
  { row: 'L8', quantity: '12 and 10 km/h, min/km', source: 'pace-identities', label: 'read', published: { low: 5, high: 6 }, tolerance: 1e-9, compute: () => ({ low: minPerKmFromMps(mpsFromKmh(12)), high: minPerKmFromMps(mpsFromKmh(10)) }) },
  { row: 'L9', quantity: '7 mph, seconds per mile', source: 'acsm-conversions', label: 'read', published: 514.3, tolerance: 2, compute: () => minPerMileFromMps(mpsFromMph(7)) * 60 },
  { row: 'L10', quantity: 'walk 3.5 mph 10 %, VO2', source: 'acsm-conversions', label: 'read', published: 29.76, tolerance: 0.02, compute: () => walk(3.5, 10) },
  { row: 'L11', quantity: 'run 8 mph, gross VO2', source: 'acsm-worked-b', label: 'read', published: 46.38, tolerance: 0.02, compute: () => run(8) },
  { row: 'L12', quantity: 'run 8 mph, net VO2', source: 'acsm-worked-b', label: 'read', published: 42.88, tolerance: 0.02, compute: () => then(run(8), net) },
  { row: 'L12', quantity: 'run 8 mph, net MET', source: 'acsm-worked-b', label: 'read', published: 12.25, tolerance: 0.02, compute: () => then(run(8), (vo2) => mets(net(vo2))) },
  { row: 'L13', quantity: 'run 8 mph at 50 kg, net kcal/min', source: 'acsm-worked-b', label: 'read', published: 10.72, tolerance: 0.02, compute: () => then(run(8), (vo2) => kcalPerMin(net(vo2), 50)) },
  { row: 'L14', quantity: 'level jog for 8 MET, m/min', source: 'acsm-worked-c', label: 'read', published: 122.5, tolerance: 0.05, compute: jogAt8Met },
  { row: 'L14', quantity: 'level jog for 8 MET, mph', source: 'acsm-worked-c', label: 'read', published: 4.57, tolerance: 0.01, compute: () => then(jogAt8Met(), mphAsPublished) },
  { row: 'L15', quantity: 'level jog for 8 MET, min/mile', source: 'acsm-worked-c', label: 'read', published: 13.1, tolerance: 0.05, compute: () => then(jogAt8Met(), (m) => 60 / mphAsPublished(m)) },
  { row: 'L16', quantity: 'walk at 10 % for 7 MET, m/min', source: 'acsm-worked-d', label: 'read', published: 75, tolerance: 0.1, compute: walkAt7Met },
  { row: 'L16', quantity: 'walk at 10 % for 7 MET, mph', source: 'acsm-worked-d', label: 'read', published: 2.8, tolerance: 0.01, compute: () => then(walkAt7Met(), mphAsPublished) },
  { row: 'L17', quantity: 'walk 3 mph 5 %, VO2', source: 'acsm-worked-e', label: 'read', published: 18.74, tolerance: 0.05, compute: () => walk(3, 5) },
  { row: 'L21', quantity: 'run 6 mph 10 %, VO2', source: 'acsm-worked-e', label: 'read', published: 50.06, tolerance: 0.1, compute: () => run(6, 10) },
  { row: 'L21', quantity: 'run 6 mph 10 %, MET', source: 'acsm-worked-e', label: 'read', published: 14.3, tolerance: 0.1, compute: () => then(run(6, 10), mets) },
  { row: 'L22', quantity: 'run 9 mph, VO2', source: 'acsm-worked-e', label: 'read', published: 51.74, tolerance: 0.02, compute: () => run(9) },
  { row: 'L25', quantity: 'run 7 mph for 49.3 mL/kg/min, grade % (the printed key says 2.5, with the walking constant)', source: 'acsm-worked-d', label: 'derived', published: 4.9, tolerance: 0.05, compute: () => gradePctForVo2(49.3, { gait: 'run', metresPerMinute: metresPerMinuteAsPublished(7) }) },
  { row: 'L27', quantity: 'marathoners at 166.7 m/min, mL/kg/m', source: 'marathoner-cost', label: 'read', published: 0.163, tolerance: 0.001, compute: () => marathonerVo2MlKgMin(166.7) / 166.7 },
  { row: 'L-M', quantity: '60 kg at 7 MET, kcal/min (MET rounded to 1 kcal/kg/h in print)', source: 'acsm-worked-c', label: 'read', published: 7, tolerance: 0.36, compute: () => kcalPerMin(24.5, 60) },
  { row: 'C32', quantity: '5 mph, km/h', source: 'definition', label: 'derived', published: 8.047, tolerance: 0.001, compute: () => kmhFromMps(mpsFromMph(5)) },
  { row: 'C32', quantity: '5 mph, m/s', source: 'definition', label: 'derived', published: 2.235, tolerance: 0.001, compute: () => mpsFromMph(5) },
  { row: 'C33', quantity: '8 mph, km/h', source: 'definition', label: 'derived', published: 12.875, tolerance: 0.001, compute: () => kmhFromMps(mpsFromMph(8)) },
  { row: 'C34', quantity: '2 miles, km', source: 'definition', label: 'derived', published: 3.219, tolerance: 0.001, compute: () => kmFromMiles(2) },
  { row: 'C34', quantity: '2.5 miles, km', source: 'definition', label: 'derived', published: 4.023, tolerance: 0.001, compute: () => kmFromMiles(2.5) },
  { row: 'C34', quantity: '3 miles, km', source: 'definition', label: 'derived', published: 4.828, tolerance: 0.001, compute: () => kmFromMiles(3) },
  { row: 'L52', quantity: 'strides of 3.1 m per mile', source: 'edwards-2009', label: 'derived', published: 519.1, tolerance: 0.5, compute: () => metresPerMile / 3.1 },
  { row: 'L52', quantity: 'strides of 2.8 m per mile', source: 'edwards-2009', label: 'derived', published: 574.8, tolerance: 0.5, compute: () => metresPerMile / 2.8 },
  { row: 'L4', quantity: '3.8318 m/s, mph', source: 'definition', label: 'derived', published: 60 / 7, tolerance: 0.001, compute: () => mphFromMps(3.8318) },
]
