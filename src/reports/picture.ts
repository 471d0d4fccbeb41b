import type { Chart } from '../chart/chart.ts'
import { type Day, daysBetween, plusDays } from '../chart/day.ts'
import { runOf } from './dose-words.ts'
import type { Box, Pen } from './sheet.ts'

/** The days that the picture shows: the last four weeks, or fewer when the record is younger. */
const mostDays = 28
const ink = '#1a1a1a'
const grey = '#8a8a8a'
const pale = '#d9d9d9'

/** What the picture shows, as numbers; a day without an answer has no pain, not pain 0. */
export type Pictured = {
  readonly days: readonly Day[]
  readonly morning: ReadonlyMap<Day, number>
  readonly during: ReadonlyMap<Day, number>
  readonly missed: ReadonlySet<Day>
  readonly runs: ReadonlyMap<Day, { readonly bodyWeightPct: number; readonly minutes: number }>
}

export function pictured(chart: Chart, today: Day): Pictured {
  const first = [...chart.checkIns, ...chart.sessions].map((one) => one.day).toSorted()[0] ?? today
  const length = Math.min(mostDays, daysBetween(first, today) + 1)
  const days = Array.from({ length }, (_, n) => plusDays(today, n - length + 1))
  return {
    days,
    morning: new Map(chart.checkIns.map((checkIn) => [checkIn.day, checkIn.worstPain])),
    during: new Map(chart.sessions.map((session) => [session.day, session.painDuring])),
    missed: new Set(chart.missed.keys()),
    runs: new Map(chart.sessions.map((session) => [session.day, runOf(session)])),
  }
}

/** The picture in words, for whoever cannot see it. */
export function pictureWords({ days, morning, during, missed, runs }: Pictured): string {
  const shown = days.flatMap((day) => {
    const run = runs.get(day)
    const said = [
      morning.has(day) ? `worst pain ${morning.get(day)}` : missed.has(day) ? 'no answer' : '',
      run ? `run of ${run.minutes} min at ${run.bodyWeightPct} % with pain ${during.get(day)}` : '',
    ].filter((words) => words !== '')
    return said.length > 0 ? [`${day}: ${said.join(', ')}`] : []
  })
  return `Pain 0 to 10 and percent of body weight carried, day by day. ${shown.join('; ')}.`
}

/** Pain above, dose below, on the same days: which run was followed by what is read from top to bottom. */
export function drawPicture(pen: Pen, box: Box, shown: Pictured): void {
  const left = box.x + 46
  const step = (box.width - 46) / shown.days.length
  const middle = (i: number) => left + (i + 0.5) * step
  const pain = { top: box.y + 16, bottom: box.y + box.height * 0.44 }
  const dose = { top: box.y + box.height * 0.64, bottom: box.y + box.height - 16 }
  const painY = (value: number) => pain.bottom - (value / 10) * (pain.bottom - pain.top)
  const doseY = (pct: number) => dose.bottom - (pct / 100) * (dose.bottom - dose.top)

  label(pen, 'Pain, 0 to 10.  ● worst since the last morning   ◇ during the run   no answer: –', box.x, box.y)
  label(pen, 'Body weight carried, %.  Above each bar: minutes of running', box.x, dose.top - 22)
  for (const value of [0, 5, 10]) axis(pen, painY(value), String(value), left, box)
  for (const pct of [0, 50, 100]) axis(pen, doseY(pct), `${pct} %`, left, box)
  drawLine(pen, shown, middle, painY)
  for (const [i, day] of shown.days.entries()) {
    const x = middle(i)
    const [morning, during, run] = [shown.morning.get(day), shown.during.get(day), shown.runs.get(day)]
    // The diamond first: where both have one value, the dot stands in it and is not hidden.
    if (during !== undefined) diamond(pen, x, painY(during))
    if (morning !== undefined) pen.circle(x, painY(morning), 2.2).fillColor(ink).fill()
    else if (shown.missed.has(day)) pen.fillColor(ink).text('–', x - 2, painY(0) - 9, { lineBreak: false })
    if (run && run.minutes > 0)
      bar(pen, x, Math.min(step * 0.6, 14), doseY(run.bodyWeightPct), dose.bottom, run.minutes)
    if (i % Math.ceil(shown.days.length / 10) === 0)
      pen
        .fillColor(ink)
        .text(day.slice(5), x - 20, dose.bottom + 4, { width: 40, align: 'center', lineBreak: false })
  }
}

/** From answer to answer; a morning without one breaks the line. */
function drawLine(
  pen: Pen,
  shown: Pictured,
  middle: (i: number) => number,
  painY: (value: number) => number,
): void {
  let joined = false
  for (const [i, day] of shown.days.entries()) {
    const value = shown.morning.get(day)
    if (value === undefined) joined = false
    else {
      if (joined) pen.lineTo(middle(i), painY(value))
      else pen.moveTo(middle(i), painY(value))
      joined = true
    }
  }
  pen.lineWidth(0.8).strokeColor(grey).stroke()
}

function axis(pen: Pen, y: number, words: string, left: number, box: Box): void {
  pen
    .moveTo(left, y)
    .lineTo(box.x + box.width, y)
    .lineWidth(0.4)
    .strokeColor(pale)
    .stroke()
  pen.fillColor(ink).text(words, box.x, y - 4, { width: 40, align: 'right', lineBreak: false })
}

function bar(pen: Pen, x: number, width: number, top: number, bottom: number, minutes: number): void {
  pen
    .rect(x - width / 2, top, width, bottom - top)
    .fillColor(grey)
    .fill()
  pen
    .fillColor(ink)
    .text(String(Math.round(minutes)), x - 12, top - 9, { width: 24, align: 'center', lineBreak: false })
}

function diamond(pen: Pen, x: number, y: number): void {
  pen
    .polygon([x, y - 5], [x + 5, y], [x, y + 5], [x - 5, y])
    .lineWidth(0.9)
    .fillAndStroke('#ffffff', ink)
}

function label(pen: Pen, words: string, x: number, y: number): void {
  pen.fillColor(ink).text(words, x, y, { lineBreak: false })
}
