import type { KnownBlock } from '@slack/types'
import { option, select } from './blocks.ts'
import type { Form } from './form.ts'

/** How one slept and feels, 1 good to 7 bad each; compared with the athlete's own past only (T2). */
const asked = [
  { name: 'sleep', label: 'How did you sleep?', good: 'very well', bad: 'very badly' },
  { name: 'fatigue', label: 'How tired are you?', good: 'very fresh', bad: 'very tired' },
  { name: 'stress', label: 'How much stress?', good: 'very calm', bad: 'very stressed' },
  { name: 'soreness', label: 'How sore are your muscles?', good: 'not at all', bad: 'very sore' },
] as const

/** Four menus that may be left alone: nothing is chosen beforehand, because a default would be an answer nobody gave (D24). */
export function readinessSelects(): KnownBlock[] {
  const hint = 'Only if you like; compared with your own other days. Left open, it stays unknown.'
  return asked.map(({ name, label, good, bad }, i) =>
    select(
      { name, label, optional: true, ...(i === 0 ? { hint } : {}) },
      Array.from({ length: 7 }, (_, n) => option(String(n + 1), wordFor(n + 1, good, bad))),
    ),
  )
}

/** What was answered; what was left open is absent, never a number. */
export function readinessFrom(form: Form): object {
  return Object.fromEntries(
    asked.flatMap(({ name }) => {
      const chosen = form.choice(name)
      return chosen === undefined ? [] : [[name, Number(chosen)]]
    }),
  )
}

function wordFor(value: number, good: string, bad: string): string {
  return value === 1 ? `1, ${good}` : value === 7 ? `7, ${bad}` : String(value)
}
