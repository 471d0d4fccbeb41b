import type { Tier } from '../chart/escalation.ts'
import type { Speciality } from '../chart/roster.ts'
import type { Morning, Said } from './morning.ts'

/** One row of the table: what it is, how soon a human must act, what is said to whom, and when it holds. */
export type RedFlag = {
  readonly finding: string
  /** The row of the evidence it comes from. */
  readonly row: `R${number}` | 'R7b' | 'LBPP' | 'words'
  /** Common practice unless the source sets a time: a clinic may tighten it in its list of words, never loosen it here. */
  readonly tier: Tier
  /** A sign for the next session with which nobody runs until a therapist has seen it. */
  readonly noRun?: true
  /** The published source of the sign, and how well it is known. */
  readonly source: string
  readonly label: 'read' | 'read-2nd' | 'memory' | 'common-practice'
  /** For the therapist. */
  readonly words: string
  /** What to do now; for the athlete. */
  readonly toAthlete: string
  /** For the licensed person and nobody else. */
  readonly support?: true
  /** Colleagues with these are offered first at a hand-over. */
  readonly fits: readonly Speciality[]
  /** What the word list hears that raises this row. */
  readonly hears: readonly Said[]
  /** Whether the closed answers raise it. */
  readonly holds: (morning: Morning) => boolean
}

/** Whether a row holds, by what was ticked or by what was said. */
export function isRaised(flag: RedFlag, morning: Morning): boolean {
  return flag.holds(morning) || flag.hears.some((said) => morning.heard.has(said))
}
