import type { Escalation } from '../chart/calls.ts'
import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt, minutesBetween, plusDays, Weekday, weekdayOf } from '../chart/day.ts'

/** How the calls of one week went. Counts and minutes only: nobody is named and nothing said is in here. */
export type WeekOfCalls = {
  /** Monday of the week, at the clinic. */
  readonly week: Day
  readonly checkIns: number
  readonly calls: number
  /** Escalations opened; undefined per 100 when nobody checked in. */
  readonly callsPer100CheckIns: number | undefined
  readonly minutesToAcknowledge: Spread | undefined
  readonly minutesToClose: Spread | undefined
  /** Escalations that went beyond the first person called, or were handed over, in percent. */
  readonly handedOnPct: number | undefined
  /** The same sign again while its alarm was open. */
  readonly repeats: number
  readonly breaches: number
  readonly open: number
}

export type Spread = { readonly median: number; readonly p90: number; readonly count: number }

/** What is published about alarms that need no action, to read one's own figures against. Hospitals, not this trade. */
export const publishedNoise = [
  { words: 'ward monitor alarms that needed no action', pct: 99.0, source: 'bonafide-2015', label: 'read' },
  { words: 'intensive-care alarms that needed no action', pct: 87.1, source: 'bonafide-2015', label: 'read' },
  {
    words: 'drug-allergy alerts that were overridden',
    pct: 98.9,
    source: 'drug-alert-overrides',
    label: 'read',
  },
] as const

/** The clinic lead's figures, by week of opening, oldest first. The auditor's own calls count as breaches, not as calls. */
export function figures(charts: readonly Chart[], zone: string): readonly WeekOfCalls[] {
  const escalations = charts.flatMap((chart) => chart.escalations.filter((e) => e.concern !== 'audit'))
  const weekOf = (at: string) => mondayOf(dayAt(at, zone))
  const checkIns = charts.flatMap((chart) => chart.checkIns.map((checkIn) => weekOf(checkIn.recordedAt)))
  const weeks = [...new Set([...checkIns, ...escalations.map((e) => weekOf(e.opened.recordedAt))])].toSorted()
  return weeks.map((week) => {
    const opened = escalations.filter((e) => weekOf(e.opened.recordedAt) === week)
    return weekFrom(week, checkIns.filter((one) => one === week).length, opened)
  })
}

function weekFrom(week: Day, checkIns: number, opened: readonly Escalation[]): WeekOfCalls {
  const since = (e: Escalation, at: string | undefined) =>
    at === undefined ? [] : [minutesBetween(e.opened.recordedAt, at)]
  return {
    week,
    checkIns,
    calls: opened.length,
    callsPer100CheckIns: checkIns === 0 ? undefined : (100 * opened.length) / checkIns,
    minutesToAcknowledge: spread(opened.flatMap((e) => since(e, e.acknowledgements[0]?.recordedAt))),
    minutesToClose: spread(opened.flatMap((e) => since(e, e.closed?.recordedAt))),
    handedOnPct: opened.length === 0 ? undefined : (100 * opened.filter(wasHandedOn).length) / opened.length,
    repeats: opened.reduce((sum, e) => sum + e.updates.filter((update) => !update.worse).length, 0),
    breaches: opened.reduce((sum, e) => sum + e.breaches.length, 0),
    open: opened.filter((e) => !e.closed).length,
  }
}

function wasHandedOn(e: Escalation): boolean {
  return new Set(e.calls.map((made) => made.person)).size > 1
}

/** The median, and the value that nine in ten do not exceed (nearest rank). */
function spread(values: readonly number[]): Spread | undefined {
  const sorted = values.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0
  if (sorted.length === 0) return undefined
  const middle = sorted.length / 2
  const median = sorted.length % 2 === 1 ? at(0.5) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2
  return { median, p90: at(0.9), count: sorted.length }
}

function mondayOf(day: Day): Day {
  return plusDays(day, -Weekday.options.indexOf(weekdayOf(day)))
}
