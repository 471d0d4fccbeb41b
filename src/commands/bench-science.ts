import { cost } from '../science/cost.ts'
import { machineSpeedMps } from '../science/equal-effort.ts'
import { isRefusal, refuse } from '../science/refusal.ts'
import { responseCurve } from '../science/response-curve.ts'

export type BenchRow = { readonly work: string; readonly perSecond: number; readonly microseconds: number }

/** One row per piece of work; `milliseconds` for each. */
export function benchScience(milliseconds: number): BenchRow[] {
  const runner = { massKg: 70, heightCm: 178, sex: 'f' } as const
  const pct = (i: number): number => 20 + (i % 81)
  const bout = { gait: 'run', speedMps: 3.129, gradePct: 0, minutes: 12 } as const
  const sessions = Array.from({ length: 20 }, (_, i) => ({
    load: 1 + (i % 7) / 5,
    painAfter: i % 7 > 4 ? 3 : 0,
  }))
  return [
    measured('one full cost estimate', milliseconds, (i) => cost({ ...bout, bodyWeightPct: pct(i) }, runner)),
    measured('one equal-effort speed', milliseconds, (i) => machineSpeedMps(3, { bodyWeightPct: pct(i) })),
    measured('one response curve of 20 sessions', milliseconds, () => responseCurve(sessions, 0)),
  ]
}

function measured(work: string, milliseconds: number, once: (i: number) => unknown): BenchRow {
  const from = (start: bigint): number => Number(process.hrtime.bigint() - start) / 1e6
  const repeat = (budget: number): { done: number; took: number } => {
    const start = process.hrtime.bigint()
    let done = 0
    // A batch between looks at the clock; the last answer is checked, so the work cannot be optimised away.
    for (; from(start) < budget; )
      for (let i = 0; i < 20; i++) if (isRefusal(once(done++))) throw new Error(unexpected.words)
    return { done, took: from(start) }
  }
  repeat(milliseconds / 5)
  const { done, took } = repeat(milliseconds)
  return { work, perSecond: (1000 * done) / took, microseconds: (1000 * took) / done }
}

const unexpected = refuse('undefined', 'A bench measures answers, not refusals.')
