import type { Chart } from '../../chart/chart.ts'
import type { CheckIn } from '../../chart/check-in.ts'
import { type Day, daysBetween } from '../../chart/day.ts'
import { againstOwnBaseline } from '../../science/readiness.ts'
import { ink, type Picture } from './picture.ts'

const asked = ['sleep', 'fatigue', 'stress', 'soreness'] as const

/** Today's four answers against the athlete's own last 28 days, never against others; undefined when there is too little. */
export function readinessPicture(chart: Chart, today: Day): Picture | undefined {
  const checkIn = chart.checkIns.findLast((one) => one.day === today)
  if (!checkIn) return undefined
  const rows = asked.flatMap((item) => scored(chart, checkIn, item, today))
  const silent = asked.filter((item) => checkIn[item] === undefined)
  const unanswered = silent.length > 0 ? ` Not answered today: ${silent.join(', ')}.` : ''
  if (rows.length === 0) return undefined
  return {
    name: 'readiness',
    title: 'Today against own usual',
    alt: `${rows.map(({ item, z }) => `${item} ${z > 0 ? 'worse' : 'better'} than usual by ${Math.abs(z).toFixed(1)} standard deviations`).join('; ')}. Against this athlete's own last 28 days only.${unanswered}`,
    spec: {
      height: 120,
      data: { values: rows },
      mark: { type: 'bar', color: ink.first, opacity: 0.8, height: 14 },
      encoding: {
        y: { field: 'item', type: 'nominal', title: null, sort: null },
        x: {
          field: 'z',
          type: 'quantitative',
          title: 'better than usual - worse than usual',
          scale: { domain: [-3, 3], clamp: true },
        },
      },
    },
  }
}

/** 1 is good and 7 bad on all four, so a score above the usual is the worse one (T2). */
function scored(
  chart: Chart,
  now: CheckIn,
  item: (typeof asked)[number],
  today: Day,
): { item: string; z: number }[] {
  const value = now[item]
  if (value === undefined) return []
  const before = chart.checkIns
    .filter((one) => one.day < today && daysBetween(one.day, today) <= 28)
    .flatMap((one) => one[item] ?? [])
  const readiness = againstOwnBaseline(value, before)
  return readiness.verdict === 'compared' && readiness.z !== null ? [{ item, z: readiness.z }] : []
}
