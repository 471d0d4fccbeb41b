import { sessionLoadAu, weekOf } from '../session-load.ts'
import { sum } from '../statistics.ts'
import { ewma, ewmaWeight, rollingRatio, trendOf } from '../trend.ts'
import type { Figure } from './figure.ts'

const month = [...Array.from({ length: 21 }, () => 30), ...Array.from({ length: 7 }, () => 50)]
const week = [0, 300, 600, 150, 450, 0, 900]
/** Foster's worked week as printed: nine session rows, and the same by day. */
const rows = [940, 50, 840, 280, 180, 390, 50, 390, 280]
const days = [940, 50, 1120, 180, 390, 50, 670]
const codeWeek = [50, 0, 100, 50, 0, 150, 0]
const none = Number.NaN
const monotony = (loads: readonly number[], spread: 'sample' | 'population') =>
  weekOf(loads, spread).monotony ?? none

// biome-ignore format: one row, one line
export const loadFigures: readonly Figure[] = [
  { row: 'L63', quantity: 'EWMA weight, 7 days', source: 'williams-2017', label: 'read', published: 0.25, tolerance: 1e-7, compute: () => ewmaWeight(7) },
  { row: 'L63', quantity: 'EWMA weight, 28 days', source: 'williams-2017', label: 'read', published: 0.0689655, tolerance: 1e-7, compute: () => ewmaWeight(28) },
  { row: 'L64', quantity: 'EWMA acute after 21 days of 30 and 7 of 50', source: 'acwr-package', label: 'derived', published: 47.3303, tolerance: 1e-4, compute: () => ewma(month, 7) ?? none },
  { row: 'L64', quantity: 'EWMA chronic, same days', source: 'acwr-package', label: 'derived', published: 37.872, tolerance: 1e-4, compute: () => ewma(month, 28) ?? none },
  { row: 'L65', quantity: 'EWMA ratio, same days', source: 'williams-2017', label: 'read', published: 1.25, tolerance: 0.005, compute: () => trendOf(month).ewmaRatio ?? none },
  { row: 'L66', quantity: 'rolling coupled ratio, same days', source: 'williams-2017', label: 'read', published: 1.43, tolerance: 0.005, compute: () => rollingRatio(month, 'coupled') ?? none },
  { row: 'L67', quantity: 'rolling uncoupled ratio, same days', source: 'windt-2019', label: 'derived', published: 1.6667, tolerance: 1e-4, compute: () => rollingRatio(month, 'uncoupled') ?? none },
  { row: 'L69', quantity: 'ceiling of the coupled ratio', source: 'lolli-2019', label: 'derived', published: 4, tolerance: 1e-9, compute: () => rollingRatio([...Array.from({ length: 21 }, () => 0), ...week], 'coupled') ?? none },
  { row: 'N-EWMA', quantity: 'EWMA of 1, 1, 5 over 30', source: 'ema-vectors', label: 'derived', published: 1.258065, tolerance: 1e-6, compute: () => ewma([1, 1, 5], 30) ?? none },
  { row: 'L71', quantity: 'effort 5 for 60 min, AU', source: 'foster-2001', label: 'read', published: 300, tolerance: 0, compute: () => sessionLoadAu(5, 60) },
  { row: 'C41', quantity: 'effort 4 for 30 min, AU', source: 'foster-2001', label: 'read', published: 120, tolerance: 0, compute: () => sessionLoadAu(4, 30) },
  { row: 'L72', quantity: 'week load of 0,300,600,150,450,0,900', source: 'foster-1998', label: 'derived', published: 2400, tolerance: 0, compute: () => weekOf(week, 'sample').weekLoad },
  { row: 'L72', quantity: 'SD, sample', source: 'foster-1998', label: 'derived', published: 332.2, tolerance: 0.001, compute: () => weekOf(week, 'sample').sd ?? none },
  { row: 'L72', quantity: 'monotony, sample', source: 'foster-1998', label: 'derived', published: 1.0321, tolerance: 1e-4, compute: () => monotony(week, 'sample') },
  { row: 'L72', quantity: 'strain, sample', source: 'foster-1998', label: 'derived', published: 2477, tolerance: 0.05, compute: () => weekOf(week, 'sample').strain ?? none },
  { row: 'L73', quantity: 'SD, population', source: 'foster-1998', label: 'derived', published: 307.558, tolerance: 0.001, compute: () => weekOf(week, 'population').sd ?? none },
  { row: 'L73', quantity: 'monotony, population', source: 'foster-1998', label: 'derived', published: 1.1148, tolerance: 1e-4, compute: () => monotony(week, 'population') },
  { row: 'L73', quantity: 'strain, population', source: 'foster-1998', label: 'derived', published: 2675.5, tolerance: 0.05, compute: () => weekOf(week, 'population').strain ?? none },
  { row: 'N-Foster', quantity: 'worked week, sum of its printed rows', source: 'foster-2001', label: 'read', published: 3400, tolerance: 0, compute: () => sum(rows) },
  { row: 'N-Foster', quantity: 'worked week, monotony of nine rows, population SD', source: 'foster-2001', label: 'read', published: 1.26, tolerance: 0.005, compute: () => monotony(rows, 'population') },
  { row: 'N-Foster', quantity: 'worked week, seven days, sample SD', source: 'foster-2001', label: 'derived', published: 1.1217, tolerance: 1e-4, compute: () => monotony(days, 'sample') },
  { row: 'N-Foster', quantity: 'worked week, seven days, population SD', source: 'foster-2001', label: 'derived', published: 1.2116, tolerance: 1e-4, compute: () => monotony(days, 'population') },
  { row: 'N-Foster', quantity: 'worked week, printed strain from printed monotony', source: 'foster-2001', label: 'read', published: 4284, tolerance: 20, compute: () => weekOf(rows, 'population').strain ?? none },
  { row: 'N', quantity: 'week 50,0,100,50,0,150,0, monotony, population', source: 'foster-1998', label: 'derived', published: 0.9354, tolerance: 1e-4, compute: () => monotony(codeWeek, 'population') },
  { row: 'N', quantity: 'the same, sample', source: 'foster-1998', label: 'derived', published: 0.866, tolerance: 1e-4, compute: () => monotony(codeWeek, 'sample') },
]
