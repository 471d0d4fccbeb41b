import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Tier } from '../chart/escalation.ts'
import { type Sign, ticked } from '../chart/signs.ts'

/** The answers of one morning, with what they are compared with. */
export type Morning = {
  readonly checkIn: CheckIn
  readonly signs: ReadonlySet<Sign>
  /** The lowest worst-pain of the last seven check-ins before this one; undefined before the second check-in. */
  readonly usualPain: number | undefined
}

export type RedFlag = {
  readonly finding: Finding
  readonly tier: Tier
  /** The published source of the sign; the tier is common practice unless the source sets a time. */
  readonly source: string
  readonly words: string
  readonly toAthlete: string
  readonly holds: (morning: Morning) => boolean
}

export type Finding =
  | 'chest-or-faint'
  | 'short-of-breath'
  | 'head-knock'
  | 'cannot-walk'
  | 'bone-pain-at-night'
  | 'sore-spot'
  | 'pain-far-above-usual'

/** A first set, read in the order of severity. */
export const redFlags: readonly RedFlag[] = [
  {
    finding: 'short-of-breath',
    tier: 'emergency',
    source: 'nice-vte-appendix',
    words: 'Sudden short breath or coughing blood: a clot in the lung is possible.',
    toAthlete: 'Stop all exercise and do not drive yourself.',
    holds: ({ signs }) => signs.has('short-of-breath'),
  },
  {
    finding: 'chest-or-faint',
    tier: 'emergency',
    source: 'aha-14-element',
    words: 'Chest pain or pressure, or fainted or nearly did.',
    toAthlete: 'Stop all exercise.',
    holds: ({ signs }) => signs.has('chest-pain'),
  },
  {
    finding: 'head-knock',
    tier: 'urgent',
    source: 'echemendia-2023',
    words: 'A knock to the head since the last check-in.',
    toAthlete: 'No exercise today, and do not stay alone.',
    holds: ({ signs }) => signs.has('head-knock'),
  },
  {
    finding: 'cannot-walk',
    tier: 'urgent',
    source: 'ottawa-rules',
    words: 'Cannot take four steps on the leg.',
    toAthlete: 'Keep weight off the leg.',
    holds: ({ signs }) => signs.has('cannot-walk'),
  },
  {
    finding: 'bone-pain-at-night',
    tier: 'urgent',
    source: 'hoenig-2023',
    words: 'Bone pain at night or at rest with one fingertip-sized sore spot.',
    toAthlete: 'Do not run.',
    holds: ({ signs }) => signs.has('bone-pain-at-night') && signs.has('sore-spot'),
  },
  {
    finding: 'sore-spot',
    tier: 'next-session',
    source: 'hoenig-2023',
    words: 'One fingertip-sized sore spot on the bone, without night or rest pain.',
    toAthlete: 'Your therapist will look at it.',
    holds: ({ signs }) => signs.has('sore-spot') && !signs.has('bone-pain-at-night'),
  },
  {
    finding: 'pain-far-above-usual',
    tier: 'urgent',
    source: 'common-practice',
    words: 'Pain of 7 or more, or 3 or more above what is usual for this athlete.',
    toAthlete: 'Rest today.',
    holds: ({ checkIn, usualPain }) =>
      checkIn.worstPain >= 7 || (usualPain !== undefined && checkIn.worstPain >= usualPain + 3),
  },
]

export function morningOf(chart: Chart, checkIn: CheckIn): Morning {
  const before = chart.checkIns.filter((earlier) => earlier.day < checkIn.day).slice(-7)
  const usualPain = before.length === 0 ? undefined : Math.min(...before.map((earlier) => earlier.worstPain))
  return { checkIn, signs: ticked(checkIn.signs), usualPain }
}
