import { forceRatio, peakForceBw, plantarPeakChangeBw, stanceAverageBw, tibialShockRatio } from '../force.ts'
import { forceTable } from '../force-table.ts'
import { springMassPeakBw } from '../spring-mass.ts'
import {
  eliteSpmPerMps,
  runningCadenceSpm,
  runningStepsPerMile,
  stepsPerKm,
  supportFactor,
  walkingCadenceSpm,
  walkingStepsPerMile,
} from '../steps.ts'
import {
  damagePerStep,
  doublingForce,
  exponentBetween,
  meniscusCycles,
  tendonCycles,
  tendonExponent,
} from '../tissue-load.ts'
import { mpsFromKmh, mpsFromMph } from '../units.ts'
import type { Figure } from './figure.ts'

const knee = forceTable.kneePeakBw
const inch = 2.54

/** Our force walking at 0.67 m/s and a quarter of the weight against running at 2.01 m/s and all of it. */
const forceFall = () => {
  const slow = peakForceBw('walk', 0.67)
  const ratio = forceRatio('walk', { bodyWeightPct: 25 })
  const fast = peakForceBw('run', 2.01)
  return { low: (slow.low * ratio.low) / fast.high, high: (slow.high * ratio.high) / fast.low }
}

const meniscusExponent = () => {
  const [weakest, strongest] = [meniscusCycles[0], meniscusCycles[meniscusCycles.length - 1]]
  if (weakest === undefined || strongest === undefined) throw new Error('the meniscus curve has points')
  return exponentBetween(weakest, strongest)
}

// biome-ignore format: one row, one line
export const forceFigures: readonly Figure[] = [
  { row: 'L41', quantity: 'walking force at 60 % against full', source: 'eastlack-2005', label: 'read', published: 0.58, tolerance: 0.05, compute: () => forceRatio('walk', { bodyWeightPct: 60 }) },
  { row: 'L41', quantity: 'walking force when 60 % was measured', source: 'eastlack-2005', label: 'read', published: 0.58, tolerance: 0.05, compute: () => forceRatio('walk', { bodyWeightPct: 60, measuredBodyWeightPct: 60 }) },
  { row: 'L42', quantity: 'walking force at 20 % against full', source: 'eastlack-2005', label: 'read', published: 0.21, tolerance: 0.05, compute: () => forceRatio('walk', { bodyWeightPct: 20 }) },
  { row: 'L43', quantity: 'in-shoe peak, 100 to 60 %, body weights (unit ambiguous)', source: 'smoliga-2015', label: 'derived', published: -0.56, tolerance: 0.15, compute: () => plantarPeakChangeBw(100, 60) },
  { row: 'L46', quantity: 'shock at the shin at 60 % against full', source: 'moran-2017', label: 'read', published: 1, tolerance: 0, compute: () => tibialShockRatio(60) },
  { row: 'L53', quantity: 'stance average, men, 3 m/s', source: 'weyand-2005', label: 'derived', published: 1.585, tolerance: 0.005, compute: () => stanceAverageBw(3, 'm') },
  { row: 'L53', quantity: 'stance average, men, 5 m/s', source: 'weyand-2005', label: 'derived', published: 1.795, tolerance: 0.005, compute: () => stanceAverageBw(5, 'm') },
  { row: 'L55', quantity: 'peak at 6 m/s, full weight', source: 'keller-1996', label: 'read', published: 2.5, tolerance: 0.3, compute: () => peakForceBw('run', 6) },
  { row: 'L55', quantity: 'peak walking 1.5 m/s, full weight', source: 'keller-1996', label: 'read', published: 1.2, tolerance: 0.001, compute: () => peakForceBw('walk', 1.5) },
  { row: 'L44-45', quantity: 'knee force from 2.01 m/s at 100 % to 0.67 m/s at 25 %: share left, by ground force', source: 'patil-2013', label: 'derived', published: 0.157, tolerance: 0.03, compute: forceFall },
  { row: 'C56', quantity: 'knee force 5.1 to 0.8, per cent left', source: 'patil-2013', label: 'derived', published: 15.7, tolerance: 0.1, compute: () => (100 * knee.walkingQuarterWeight.value) / knee.runningFullWeight.value },
  { row: 'N-Morin', quantity: 'spring-mass peak, flight 0.119 s, contact 0.228 s', source: 'morin-2005', label: 'derived', published: 2.391, tolerance: 0.001, compute: () => springMassPeakBw(0.119, 0.228) },
  { row: 'N-Morin', quantity: 'the same against the mean of 96 steps', source: 'balsalobre-2016', label: 'read', published: 2.412, tolerance: 0.03, compute: () => springMassPeakBw(0.119, 0.228) },
  { row: 'N-Morin', quantity: 'spring-mass peak without flight', source: 'morin-2005', label: 'derived', published: 1.571, tolerance: 0.001, compute: () => springMassPeakBw(0, 0.3) },
  { row: 'L47', quantity: 'cadence factor per 10 % unloading', source: 'stockland-2019', label: 'read', published: { low: 0.965, high: 0.985 }, tolerance: 1e-9, compute: () => supportFactor(90) },
  { row: 'L48', quantity: 'cadence factor 100 to 50 %', source: 'stockland-2019', label: 'derived', published: { low: 0.837, high: 0.927 }, tolerance: 0.001, compute: () => supportFactor(50) },
  { row: 'L49', quantity: 'steps/min per m/s, elite', source: 'burns-2019', label: 'read', published: 5.6, tolerance: 0.05, compute: () => eliteSpmPerMps },
  { row: 'L49', quantity: 'steps/min per m/s, the recreational line used here', source: 'burns-2019', label: 'read', published: 5.6, tolerance: 0.5, compute: () => runningCadenceSpm(4) - runningCadenceSpm(3) },
  { row: 'N', quantity: 'cadence at 3 m/s', source: 'van-oeveren-wearables', label: 'derived', published: 168.06, tolerance: 0.01, compute: () => runningCadenceSpm(3) },
  { row: 'N', quantity: 'cadence at 2.5 m/s', source: 'van-oeveren-wearables', label: 'derived', published: 165.1, tolerance: 0.1, compute: () => runningCadenceSpm(2.5) },
  { row: 'N', quantity: 'steps/km at 4.0 m/s', source: 'van-oeveren-wearables', label: 'derived', published: 725, tolerance: 0.6, compute: () => stepsPerKm(runningCadenceSpm(4), 4) },
  { row: 'N', quantity: 'self-chosen cadence of beginners at 2.6 m/s', source: 'inexperienced-2017', label: 'derived', published: 158, tolerance: 10, compute: () => runningCadenceSpm(2.6) },
  { row: 'L51', quantity: '170 spm at 12 km/h, steps/km', source: 'definition', label: 'derived', published: 850, tolerance: 0.5, compute: () => stepsPerKm(170, mpsFromKmh(12)) },
  { row: 'N-Hoeger', quantity: 'run 10 min/mile at 70 in, steps/mile', source: 'hoeger-2008', label: 'read-2nd', published: 1575, tolerance: 0.5, compute: () => runningStepsPerMile(10, 70 * inch) },
  { row: 'N-Hoeger', quantity: 'walk 15 min/mile at 70 in, man, steps/mile', source: 'hoeger-2008', label: 'read-2nd', published: 1880, tolerance: 0.5, compute: () => walkingStepsPerMile(15, 70 * inch, 'm') },
  { row: 'N-Hoeger', quantity: 'mean steps walking a mile in 20 min', source: 'hoeger-2008', label: 'read-2nd', published: 2252, tolerance: 0.5, compute: () => walkingCadenceSpm(mpsFromMph(3)) * 20 },
  { row: 'L56', quantity: 'damage at 1.10 x load, b 6.6', source: 'edwards-2018', label: 'derived', published: 1.876, tolerance: 0.001, compute: () => damagePerStep(1.1, 6.6) },
  { row: 'L57', quantity: 'damage at 0.90 x load and 1/0.9 x steps, b 6.6', source: 'edwards-2009', label: 'derived', published: 0.554, tolerance: 0.001, compute: () => damagePerStep(0.9, 6.6) / 0.9 },
  { row: 'L58', quantity: 'load factor that doubles damage, b 6.6', source: 'edwards-2018', label: 'derived', published: 1.111, tolerance: 0.001, compute: () => doublingForce(6.6) },
  { row: 'L58', quantity: 'load factor that doubles damage, b 9', source: 'edwards-2018', label: 'derived', published: 1.08, tolerance: 0.001, compute: () => doublingForce(9) },
  { row: 'L59', quantity: 'meniscus exponent, 70 to 30 % of strength', source: 'henderson-2022', label: 'derived', published: 10.27, tolerance: 0.05, compute: meniscusExponent },
  { row: 'N-tendon', quantity: 'tendon cycles at 40 % of strength', source: 'schechtman-1997', label: 'derived', published: 13_864, tolerance: 5, compute: () => tendonCycles(40) },
  { row: 'N-tendon', quantity: 'tendon cycles at 20 % of strength', source: 'schechtman-1997', label: 'derived', published: 311_346, tolerance: 50, compute: () => tendonCycles(20) },
  { row: 'N-tendon', quantity: 'tendon local exponent at 40 %', source: 'schechtman-1997', label: 'derived', published: 6.22, tolerance: 0.01, compute: () => tendonExponent(40) },
  { row: 'N', quantity: '3 mph, m/s (the walking steps were counted there)', source: 'definition', label: 'derived', published: 1.341, tolerance: 0.001, compute: () => mpsFromMph(3) },
]
