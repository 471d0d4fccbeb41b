import type { Chart } from '../../chart/chart.ts'
import { type Day, plusDays } from '../../chart/day.ts'
import { days as dayScale, ink, type Picture } from './picture.ts'

/**
 * Pain over the dose, on one axis of days. A morning without an answer is a gap in the line, never a zero; holds are
 * shaded, red flags carry a mark and the word.
 */
export function painAndDose(chart: Chart, today: Day, days = 28): Picture {
  const from = plusDays(today, 1 - days)
  const pain = mornings(chart, from, today)
  const dose = sessions(chart, from)
  const flags = chart.escalations
    .map((escalation) => ({ day: escalation.opened.recordedAt.slice(0, 10), what: 'red flag' }))
    .filter(({ day }) => day >= from)
  const holds = shaded(chart, from, today)
  return {
    name: 'pain-and-dose',
    title: `Pain and dose, ${from} to ${today}`,
    alt: inWords(pain, dose, flags.length, holds.length),
    spec: {
      vconcat: [painPanel(pain, flags, holds), dosePanel(dose, [from, today])],
      resolve: { scale: { x: 'shared' } },
    },
  }
}

type Morning = { day: Day; pain: number | null; which: string }
type Session = { day: Day; bodyWeightPct: number; minutes: number }

function mornings(chart: Chart, from: Day, today: Day): Morning[] {
  const byDay = new Map(chart.checkIns.map((checkIn) => [checkIn.day, checkIn]))
  const rows: Morning[] = []
  for (let day = from; day <= today; day = plusDays(day, 1)) {
    const checkIn = byDay.get(day)
    rows.push({ day, pain: checkIn?.worstPain ?? null, which: 'worst in 24 h' })
    rows.push({ day, pain: checkIn?.morningPain ?? null, which: 'this morning' })
  }
  return rows
}

function sessions(chart: Chart, from: Day): Session[] {
  return chart.sessions
    .filter((session) => session.day >= from)
    .map((session) => {
      const running = session.bouts.filter((bout) => bout.gait === 'run')
      return {
        day: session.day,
        bodyWeightPct: Math.max(
          0,
          ...running.map((bout) => bout.measuredBodyWeightPct ?? bout.bodyWeightPct),
        ),
        minutes: running.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0),
      }
    })
}

function shaded(chart: Chart, from: Day, today: Day): { start: Day; end: Day }[] {
  const lifted = new Map(
    chart.entries.flatMap((entry) => (entry.kind === 'hold-lifted' ? [[entry.hold, entry.recordedAt]] : [])),
  )
  return chart.entries
    .filter((entry) => entry.kind === 'hold')
    .map((hold) => ({
      start: hold.recordedAt.slice(0, 10),
      end: (lifted.get(hold.id) ?? today).slice(0, 10),
    }))
    .map(({ start, end }) => ({ start: start < from ? from : start, end: plusDays(end, 1) }))
    .filter(({ end }) => end > from)
}

function painPanel(pain: readonly Morning[], flags: readonly object[], holds: readonly object[]): object {
  const x = dayScale
  const which = {
    field: 'which',
    type: 'nominal',
    scale: { domain: ['worst in 24 h', 'this morning'], range: [ink.second, ink.first] },
    legend: { title: null, orient: 'top' },
  }
  return {
    height: 130,
    layer: [
      {
        data: { values: holds },
        mark: { type: 'rect', color: ink.quiet, opacity: 0.18, clip: true },
        encoding: { x: { ...dayScale, field: 'start' }, x2: { field: 'end' } },
      },
      {
        data: { values: pain },
        mark: { type: 'line', point: { size: 40 }, invalid: 'break-paths-show-domains' },
        encoding: {
          x,
          y: {
            field: 'pain',
            type: 'quantitative',
            title: 'pain, 0 to 10',
            scale: { domain: [0, 10] },
            axis: { tickCount: 5 },
          },
          color: which,
          shape: { ...which, scale: { domain: which.scale.domain, range: ['circle', 'square'] } },
        },
      },
      {
        data: { values: flags },
        mark: {
          type: 'text',
          text: '▼ red flag',
          align: 'left',
          dx: -5,
          dy: -5,
          fontSize: 11,
          fontWeight: 'bold',
          color: ink.text,
        },
        encoding: { x, y: { datum: 10 } },
      },
    ],
  }
}

function dosePanel(dose: readonly Session[], domain: readonly [Day, Day]): object {
  const x = { ...dayScale, scale: { ...dayScale.scale, domain } }
  return {
    height: 110,
    data: { values: dose },
    layer: [
      {
        mark: { type: 'bar', width: 9, color: ink.first, opacity: 0.75 },
        encoding: {
          x,
          y: {
            field: 'bodyWeightPct',
            type: 'quantitative',
            title: '% of body weight',
            scale: { domain: [0, 100] },
          },
        },
      },
      {
        mark: { type: 'text', dy: -6, fontSize: 10, color: ink.text },
        encoding: {
          x,
          y: { field: 'bodyWeightPct', type: 'quantitative' },
          text: { field: 'minutes', format: '.3~r' },
        },
      },
    ],
  }
}

function inWords(pain: readonly Morning[], dose: readonly Session[], flags: number, holds: number): string {
  const answered = pain.filter((row) => row.which === 'worst in 24 h' && row.pain !== null)
  const silent = pain.length / 2 - answered.length
  const worst = answered.toSorted((a, b) => (b.pain ?? 0) - (a.pain ?? 0))[0]
  const last = dose.at(-1)
  return [
    `${answered.length} mornings answered, ${silent} without an answer.`,
    worst ? `Worst pain ${worst.pain} of 10 on ${worst.day}.` : 'No pain was asked for yet.',
    last
      ? `${dose.length} runs; the last on ${last.day}: ${last.minutes} minutes at ${last.bodyWeightPct} percent of body weight.`
      : 'No run yet.',
    `${flags} red flags, ${holds} holds. Numbers over the bars are minutes of running.`,
  ].join(' ')
}
