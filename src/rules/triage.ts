import type { Heard } from '../chart/alarm-words.ts'
import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { CallTier, Tier } from '../chart/escalation.ts'
import type { Because } from '../chart/signing.ts'
import { caseOf, type Morning, morningOf, onlyHeard } from './morning.ts'
import { isRaised, type RedFlag } from './red-flag.ts'
import { redFlags } from './red-flags.ts'

/** What the morning asks of us: stop and call now, refer today, note for the next session, or go on. */
export type Triage = {
  readonly disposition: 'stop' | 'refer' | 'note' | 'continue'
  /** True when nobody runs until a therapist lifts the hold: always with stop and refer, with some notes. */
  readonly hold: boolean
  /** The flags about the body that hold, most severe first. */
  readonly flags: readonly RedFlag[]
  readonly because: readonly Because[]
  /** Mood, eating, self-harm: kept apart, because it goes to the licensed person and to nobody else. */
  readonly support: { readonly tier: Tier; readonly because: readonly Because[] } | undefined
}

const dispositions = { emergency: 'stop', urgent: 'refer', 'next-session': 'note' } as const

/** Reads every red flag against the morning; the worst one that holds decides. Never a diagnosis. */
export function triage(chart: Chart, checkIn: CheckIn, clinic: Clinic): Triage {
  return triageOf(morningOf(chart, checkIn, caseOf(chart, checkIn.day, clinic)))
}

/** The same for what was said outside a check-in, in the note of a run. */
export function triageHeard(chart: Chart, heard: readonly Heard[], day: string, clinic: Clinic): Triage {
  return triageOf(onlyHeard(heard, caseOf(chart, day, clinic)))
}

export function triageOf(morning: Morning): Triage {
  // The table is in the order of severity, so the first that holds is the worst.
  const raised = redFlags.filter((flag) => isRaised(flag, morning))
  const flags = raised.filter((flag) => !flag.support)
  const support = raised.filter((flag) => flag.support)
  const [worst] = flags
  const [worstSupport] = support
  return {
    disposition: worst ? dispositions[worst.tier] : 'continue',
    hold: flags.some((flag) => rings(flag.tier) || flag.noRun),
    flags,
    because: reasons(flags),
    support: worstSupport && { tier: worstSupport.tier, because: reasons(support) },
  }
}

export function rings(tier: Tier): tier is CallTier {
  return tier !== 'next-session'
}

function reasons(flags: readonly RedFlag[]): readonly Because[] {
  return flags.map(({ finding, words, source }) => ({ finding, words, source }))
}
