// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: publications print rounded numbers
import { anteriorDifference, balanceCompositePct } from '../balance.ts'
import { minimalDetectableChange, painChange, smallestWorthwhileChange, typicalError } from '../change.ts'
import { aclRsi, koosSubscale, type Questionnaire, scoreOf } from '../questionnaires.ts'
import { againstOwnBaseline } from '../readiness.ts'
import { isRefusal } from '../refusal.ts'
import { scores } from '../scores-table.ts'
import { standardScore } from '../statistics.ts'
import { limbSymmetryPct } from '../symmetry.ts'
import type { Figure } from './figure.ts'

const score = (questionnaire: Questionnaire, total: number) => {
  const answer = scoreOf(questionnaire, total)
  return isRefusal(answer) ? answer : answer.score
}
const z = (today: number, previous: readonly number[]) => {
  const answer = againstOwnBaseline(today, previous)
  return answer.verdict === 'compared' && answer.z !== null ? answer.z : Number.NaN
}
const painPct = (before: number, after: number) => {
  const change = painChange(before, after)
  return isRefusal(change) ? change : (change.pct ?? Number.NaN)
}
const reach = (anterior: number, posteromedial: number, posterolateral: number) =>
  balanceCompositePct({ anterior, posteromedial, posterolateral }, 90)
const plank = scores.plankMenSeconds

// biome-ignore format: one row, one line
export const scoreFigures: readonly Figure[] = [
  { row: 'C1', quantity: 'symmetry, distance 135 / 150 cm', source: 'gokeler-2017', label: 'derived', published: 90, tolerance: 0.05, compute: () => limbSymmetryPct({ involved: 135, uninvolved: 150 }) },
  { row: 'C2', quantity: 'symmetry, distance 96 / 120 cm', source: 'gokeler-2017', label: 'derived', published: 80, tolerance: 0.05, compute: () => limbSymmetryPct({ involved: 96, uninvolved: 120 }) },
  { row: 'C3', quantity: 'symmetry, timed 2.2 / 2.0 s', source: 'common-practice', label: 'memory', published: 90.9, tolerance: 0.05, compute: () => limbSymmetryPct({ involved: 2.2, uninvolved: 2 }, 'less') },
  { row: 'C5', quantity: 'balance composite 62, 105, 100 on 90 cm', source: 'plisky-2006', label: 'derived', published: 98.89, tolerance: 0.01, compute: () => reach(62, 105, 100) },
  { row: 'C6', quantity: 'balance composite 60, 98, 95 on 90 cm', source: 'plisky-2006', label: 'derived', published: 93.7, tolerance: 0.01, compute: () => reach(60, 98, 95) },
  { row: 'C7', quantity: 'anterior reach 62 and 57, cm apart', source: 'plisky-2006', label: 'read', published: 5, tolerance: 0, compute: () => anteriorDifference(62, 57).cm },
  { row: 'C9', quantity: 'IKDC total 60, items from 0', source: 'ikdc-scoring', label: 'derived', published: 68.97, tolerance: 0.01, compute: () => score('ikdc', 60) },
  { row: 'C10', quantity: 'IKDC total 60, items from 1', source: 'ikdc-scoring', label: 'memory', published: 48.28, tolerance: 0.01, compute: () => score('ikdc-from-1', 60) },
  { row: 'C11', quantity: 'child IKDC total 60', source: 'pedi-ikdc', label: 'read', published: 65.22, tolerance: 0.01, compute: () => score('pedi-ikdc', 60) },
  { row: 'C12', quantity: 'KOOS sport 1,2,2,3,1', source: 'koos-2012', label: 'derived', published: 55, tolerance: 0.01, compute: () => koosSubscale([1, 2, 2, 3, 1]) },
  { row: 'C15', quantity: 'ACL-RSI of twelve answers', source: 'acl-rsi', label: 'derived', published: 60, tolerance: 0.01, compute: () => aclRsi([50, 60, 70, 40, 80, 55, 65, 70, 60, 50, 75, 45]) },
  { row: 'C17', quantity: 'LEFS, most', source: 'binkley-1999', label: 'read', published: 80, tolerance: 0, compute: () => score('lefs', 20 * 4) },
  { row: 'C18', quantity: 'LEFS, change at the edge of noise', source: 'binkley-1999', label: 'read', published: 9, tolerance: 0, compute: () => scores.lefsMdc90.value },
  { row: 'C20', quantity: 'four-item index 3,2,4,3', source: 'hooper-1995', label: 'memory', published: 12, tolerance: 0, compute: () => score('wellness-4', 3 + 2 + 4 + 3) },
  { row: 'C21', quantity: 'five-item scale 4,3,5,4,4', source: 'mclean-2010', label: 'derived', published: 20, tolerance: 0, compute: () => score('wellness-5', 4 + 3 + 5 + 4 + 4) },
  { row: 'C22', quantity: 'z of 15 against 10,12,11,13,12,14,12', source: 'common-practice', label: 'derived', published: 2.324, tolerance: 0.001, compute: () => z(15, [10, 12, 11, 13, 12, 14, 12]) },
  { row: 'C25', quantity: 'smallest worthwhile change, SD 3.0', source: 'typical-error-note', label: 'derived', published: 0.6, tolerance: 0.001, compute: () => smallestWorthwhileChange(3) },
  { row: 'C26', quantity: 'typical error, SD of differences 2.0', source: 'typical-error-note', label: 'derived', published: 1.414, tolerance: 0.001, compute: () => typicalError(2) },
  { row: 'C27', quantity: 'MDC 95 %, typical error 1.414', source: 'typical-error-note', label: 'derived', published: 3.92, tolerance: 0.01, compute: () => minimalDetectableChange(1.414, 95) },
  { row: 'C29', quantity: 'MDC 90 % of hop symmetry, SEM 5.59', source: 'reid-2007', label: 'read', published: 12.96, tolerance: 0.06, compute: () => minimalDetectableChange(scores.hopSemPct.value[1], 90) },
  { row: 'C29', quantity: 'MDC 90 % of hop symmetry, SEM 3.04', source: 'reid-2007', label: 'read', published: 7.05, tolerance: 0.06, compute: () => minimalDetectableChange(scores.hopSemPct.value[0], 90) },
  { row: 'C51', quantity: 'pain 6 to 4, per cent', source: 'farrar-2001', label: 'read', published: -33.3, tolerance: 0.1, compute: () => painPct(6, 4) },
  { row: 'C52', quantity: 'pain 5 to 4, per cent', source: 'salaffi-2004', label: 'read', published: -20, tolerance: 0.1, compute: () => painPct(5, 4) },
  { row: 'C61', quantity: 'plank of 160 s, man, z against the norm', source: 'strand-2014', label: 'derived', published: 0.5, tolerance: 0.01, compute: () => standardScore(160, plank.mean.value, plank.sd.value) },
]
