import type { Chart } from '../../chart/chart.ts'
import { days, ink, type Picture } from './picture.ts'

/** The rung of every run of the signed plan; undefined while no plan is signed. */
export function ladderPicture(chart: Chart): Picture | undefined {
  const { plan } = chart
  if (!plan) return undefined
  const runs = chart.sessions
    .filter((session) => session.recordedAt >= plan.recordedAt)
    .map(({ day, rung }) => ({ day, rung }))
  const rungs = plan.ladder.rungs.map((_, i) => i + 1)
  const last = runs.at(-1)
  const first = runs[0]
  return {
    name: 'ladder',
    title: `Rung of each run, 1 to ${rungs.length}`,
    alt:
      last && first
        ? `${runs.length} runs, from rung ${first.rung} on ${first.day} to rung ${last.rung} of ${rungs.length} on ${last.day}.`
        : `No run yet; the plan starts on rung ${plan.startRung} of ${rungs.length}.`,
    spec: {
      height: 160,
      data: { values: runs },
      mark: {
        type: 'line',
        interpolate: 'step-after',
        point: { size: 60, filled: true, color: ink.first },
        color: ink.first,
      },
      encoding: {
        x: days,
        y: {
          field: 'rung',
          type: 'quantitative',
          title: 'rung',
          scale: { domain: [1, rungs.length] },
          axis: { values: rungs, format: 'd' },
        },
      },
    },
  }
}
