import { readChart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import { readRoster } from '../chart/roster.ts'
import { openLibrary } from '../desk/library.ts'
import { prescribe } from '../rules/prescription.ts'
import { triage } from '../rules/triage.ts'
import { today } from './bench-clinic.ts'
import { atLeast, type Row, shown } from './bench-row.ts'
import { benchScience } from './bench-science.ts'
import { liveSeason } from './season.ts'

const days = 120
const seconds = 2

/** Decisions a second on a long chart, read from its entries each time, and the science below them. */
export async function rows(): Promise<Row[]> {
  const { chart } = await liveSeason(days, today())
  const team = { clinic: openLibrary('shared').clinic, roster: readRoster([]) }
  const checkIn = chart.checkIns.at(-1) as CheckIn
  const now = checkIn.recordedAt
  const decide = () => {
    const read = readChart(chart.athlete, chart.entries)
    return [triage(read, checkIn, team.clinic), prescribe(read, checkIn, team, now)]
  }
  const perSecond = repeated(decide)
  return [
    atLeast(`decisions (readChart + triage + prescribe) on a chart of ${days} days`, perSecond, 20_000),
    ...benchScience(500).map(({ work, perSecond: rate }) => shown(work, rate)),
  ]
}

function repeated(work: () => unknown): number {
  const until = (ms: number) => {
    const began = performance.now()
    let done = 0
    for (; performance.now() - began < ms; done += 1) work()
    return (done / (performance.now() - began)) * 1000
  }
  until(500)
  return until(seconds * 1000)
}
