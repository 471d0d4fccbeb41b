import type { Morning } from './morning.ts'
import type { RedFlag } from './red-flag.ts'
import { emergencies } from './red-flags-emergency.ts'
import { forNextSession } from './red-flags-next.ts'
import { urgents } from './red-flags-urgent.ts'

const table = [...emergencies, ...urgents, ...forNextSession] as const

export type Finding = (typeof table)[number]['finding']

/** The whole table, R1 to R15, read in the order of severity. */
export const redFlags: readonly (RedFlag & { readonly finding: Finding })[] = table

/** What of a morning is remarkable. */
export type Remarkable = Partial<Omit<Morning, 'signs' | 'heard' | 'patient'>> & {
  readonly signs?: readonly Parameters<Morning['signs']['has']>[0][]
  readonly heard?: readonly Parameters<Morning['heard']['has']>[0][]
  readonly patient?: Partial<Morning['patient']>
}

/** For every row the case that raises it and its nearest miss: a row without both does not compile. */
export type Cases = Readonly<Record<Finding, { readonly raises: Remarkable; readonly misses: Remarkable }>>
