import type { Chart } from '../../chart/chart.ts'
import { type Day, daysBetween, plusDays } from '../../chart/day.ts'
import type { SessionDone } from '../../chart/session.ts'
import { sessionLoadAu } from '../../science/session-load.ts'
import { ink, type Picture } from './picture.ts'

/** Session-RPE load of each of the last weeks, ending today. A description of what was done: it opens and closes nothing. */
export function weekLoad(chart: Chart, today: Day, weeks = 6): Picture {
  const rows = Array.from({ length: weeks }, (_, i) => {
    const last = plusDays(today, -7 * (weeks - 1 - i))
    const inWeek = chart.sessions.filter((session) => {
      const ago = daysBetween(session.day, last)
      return ago >= 0 && ago < 7
    })
    return {
      week: `to ${last.slice(5)}`,
      load: inWeek.reduce((sum, session) => sum + loadOf(session), 0),
      runs: inWeek.length,
    }
  })
  const now = rows.at(-1)
  const before = rows.at(-2)
  return {
    name: 'week-load',
    title: 'Load of each week (effort times minutes)',
    alt: `Last seven days: ${Math.round(now?.load ?? 0)} units in ${now?.runs ?? 0} runs; the seven days before: ${Math.round(before?.load ?? 0)} in ${before?.runs ?? 0}. This describes what was done and predicts nothing.`,
    spec: {
      height: 150,
      data: { values: rows },
      layer: [
        {
          mark: { type: 'bar', color: ink.first, opacity: 0.8 },
          encoding: {
            x: { field: 'week', type: 'ordinal', sort: null, title: 'week', axis: { labelAngle: 0 } },
            y: { field: 'load', type: 'quantitative', title: 'effort x minutes' },
          },
        },
        {
          mark: { type: 'text', dy: -7, fontSize: 11, color: ink.text },
          encoding: {
            x: { field: 'week', type: 'ordinal', sort: null },
            y: { field: 'load', type: 'quantitative' },
            text: { field: 'load', format: '.0f' },
          },
        },
      ],
    },
  }
}

/** Effort of the whole session times its minutes of movement, walking included where it was logged. */
function loadOf(session: SessionDone): number {
  const minutes = session.bouts.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
  const load = sessionLoadAu(session.rpe, minutes)
  return typeof load === 'number' ? load : 0
}
