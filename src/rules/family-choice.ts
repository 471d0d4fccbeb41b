import type { Chart } from '../chart/chart.ts'
import { defaultsOf, type Family, type FamilySettings, type Setting } from '../chart/family.ts'

type Value = number | boolean | string | undefined

/** How a setting is said, and which way is the looser: more of it, or less. */
const said: Record<Setting, { readonly words: string; readonly looser: 'more' | 'less' }> = {
  painDuringMost: { words: 'most pain accepted in the run (0-10)', looser: 'more' },
  painAfterMost: { words: 'most pain accepted after the run and later that day (0-10)', looser: 'more' },
  morningMost: { words: 'most pain accepted on getting up (0-10)', looser: 'more' },
  morningRiseMost: { words: 'how much worse than before the run a morning may be', looser: 'more' },
  hoursWatched: { words: 'hours watched after a run', looser: 'less' },
  weeklyClimbMost: { words: 'how much the worst morning may climb in a week', looser: 'more' },
  weeklyClimbBack: { words: 'a climb in a week that goes one rung back', looser: 'more' },
  holdOnPainDuring: { words: 'running waits for a therapist after pain in the run', looser: 'less' },
  sorenessRows: { words: 'soreness at the place must be answered for a step up', looser: 'less' },
  restDaysWhenSorenessStays: { words: 'days without a run when soreness stays', looser: 'less' },
  restDaysWhenSoreAfter: { words: 'days without a run when sore later', looser: 'less' },
  rungsUpPer7Days: { words: 'rungs up in 7 days', looser: 'more' },
  stepUp: { words: 'a step up is offered at once or proposed to you first', looser: 'less' },
  lowerBodyWeightPct: { words: 'on pain: points of body weight off first', looser: 'less' },
  lowerSpeedPct: { words: 'on pain: percent of speed off then', looser: 'less' },
}

/** What differs from the defaults of a tissue. */
export type Chosen = { readonly [K in Setting]?: FamilySettings[K] | undefined }

/** One setting of a family with its default, what may be chosen, and who says so. */
export type Choice = {
  readonly setting: Setting
  readonly words: string
  readonly value: Value
  readonly allowed: readonly Value[]
  readonly source: string
  readonly label: string
  readonly why: string | undefined
}

/** Every setting of a tissue, in the order of the file. */
export function choicesOf(family: Family): readonly Choice[] {
  return Object.entries(family.settings).flatMap(([name, written]) => {
    if (!written) return []
    const { value, allowed, source, label, words: why } = written
    const setting = name as Setting
    return [{ setting, words: said[setting].words, value, allowed, source, label, why }]
  })
}

/** What was signed for the tissue that heals now: the rules of another tissue are no starting point (T8). */
export function signedBefore({ plan, episode }: Chart): FamilySettings | undefined {
  return episode && plan?.ladder.tissues.includes(episode.tissue) ? plan.settings : undefined
}

/**
 * What is chosen looser than the default of the tissue, or than what was signed before: one sentence each, with the
 * source of the default.
 */
export function looserChoices(
  family: Family,
  before: FamilySettings | undefined,
  chosen: Chosen,
): readonly string[] {
  const after: Chosen = { ...defaultsOf(family), ...chosen }
  return choicesOf(family).flatMap(({ setting, words, value, source, label }) => {
    const now = after[setting]
    const signed = before?.[setting]
    if (isLooser(setting, value, now))
      return [
        `Looser than the default: ${words}: ${inWords(now)}, where ${inWords(value)} is [${source}, ${label}].`,
      ]
    return signed !== undefined && isLooser(setting, signed, now)
      ? [`Looser than what you signed before: ${words}: ${inWords(now)}, it was ${inWords(signed)}.`]
      : []
  })
}

/** "yes", "no", "3", "at once". */
export function inWords(value: Value): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  return value === 'offer' ? 'offered at once' : value === 'propose' ? 'proposed first' : String(value)
}

function isLooser(setting: Setting, from: Value, to: Value): boolean {
  const [a, b] = [rank(from), rank(to)]
  return said[setting].looser === 'more' ? b > a : b < a
}

function rank(value: Value): number {
  return typeof value === 'string' ? Number(value === 'propose') : Number(value)
}
