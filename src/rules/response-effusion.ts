import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'

/** What the graded effusion allows: on as due, the same level, no running, or no running and the team told. */
export type EffusionRule = 'as-due' | 'same-level' | 'hold' | 'hold-and-tell'

/** 2+ by the modified stroke test: fluid comes back by itself. */
const holdsFrom = 2
const onePlus = 1

/**
 * The effusion rule (white-soreness-effusion), visit by visit. Up to 1+ goes on as due; 2+ holds. At the visit
 * after a hold: trace or none, on; 1+, the same level; 2+, hold again. At the one after that: up to 1+, on;
 * 2+, hold and tell the team. Undefined when no clinician has graded the knee.
 */
export function effusionRule(chart: Chart, today: Day): EffusionRule | undefined {
  let rule: EffusionRule | undefined
  let visitsSinceHold = 0
  for (const { value: grade } of grades(chart, today)) {
    const held = rule === 'hold' || rule === 'hold-and-tell' || rule === 'same-level'
    visitsSinceHold = held ? visitsSinceHold + 1 : 0
    if (grade >= holdsFrom) rule = visitsSinceHold >= 2 ? 'hold-and-tell' : 'hold'
    else rule = visitsSinceHold === 1 && grade >= onePlus ? 'same-level' : 'as-due'
  }
  return rule
}

/** Whether a clinician has graded the knee on this day. */
export function gradedOn(chart: Chart, day: Day): boolean {
  return chart.measures.some((measure) => measure.measure === 'effusion-grade' && measure.day === day)
}

function grades(chart: Chart, today: Day) {
  return chart.measures
    .filter((measure) => measure.measure === 'effusion-grade' && measure.day <= today)
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
}
