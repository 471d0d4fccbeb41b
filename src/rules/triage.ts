import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Tier } from '../chart/escalation.ts'
import type { Because } from '../chart/signing.ts'
import { morningOf, type RedFlag, redFlags } from './red-flags.ts'

/** What the morning asks of us: stop and call now, refer today, note for the next session, or go on. */
export type Triage = {
  readonly disposition: 'stop' | 'refer' | 'note' | 'continue'
  /** The flags that hold, most severe first. */
  readonly flags: readonly RedFlag[]
  readonly because: readonly Because[]
}

const severity: Record<Tier, number> = { emergency: 0, urgent: 1, 'next-session': 2 }

const dispositions = { emergency: 'stop', urgent: 'refer', 'next-session': 'note' } as const

/** Reads every red flag against the morning; the worst one that holds decides. Never a diagnosis. */
export function triage(chart: Chart, checkIn: CheckIn): Triage {
  const morning = morningOf(chart, checkIn)
  const flags = redFlags
    .filter((flag) => flag.holds(morning))
    .toSorted((a, b) => severity[a.tier] - severity[b.tier])
  const worst = flags[0]
  return {
    disposition: worst ? dispositions[worst.tier] : 'continue',
    flags,
    because: flags.map(({ finding, words, source }) => ({ finding, words, source })),
  }
}
