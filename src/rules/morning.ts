import type { Heard, Topic } from '../chart/alarm-words.ts'
import type { Chart } from '../chart/chart.ts'
import type { CheckIn } from '../chart/check-in.ts'
import type { Clinic } from '../chart/clinic.ts'
import { type Day, daysBetween } from '../chart/day.ts'
import type { Tier } from '../chart/escalation.ts'
import type { Tissue } from '../chart/ladder.ts'
import { type Sign, type SignGroup, ticked } from '../chart/signs.ts'

/** What the case is, as far as questions and signs follow it. */
export type Case = {
  readonly tissue: Tissue
  readonly knee: boolean
  /** Hip or groin: the neck of the femur may be behind it. */
  readonly hip: boolean
  readonly afterSurgery: boolean
}

/** The answers of one morning, with what they are compared with. What a red flag may look at, and nothing else. */
export type Morning = {
  readonly signs: { has(sign: Sign): boolean }
  /** Undefined when it was not asked or not taken. */
  readonly temperatureC: number | undefined
  readonly moreSwollen: CheckIn['swelling']
  readonly worstPain: number
  /** The lowest worst-pain of the last seven check-ins before this one; undefined before the second check-in. */
  readonly usualPain: number | undefined
  readonly heard: { has(said: Said): boolean }
  readonly patient: Case
}

/** A topic of the word list with the tier it was heard at. */
export type Said = `${Topic}/${Tier}`

export function caseOf(chart: Chart, day: Day, clinic: Clinic): Case {
  const { episode } = chart
  const where = `${episode?.diagnosis ?? ''} ${episode?.site ?? ''}`.toLowerCase()
  const since = episode?.surgeryDay === undefined ? undefined : daysBetween(episode.surgeryDay, day)
  return {
    tissue: episode?.tissue ?? 'bone',
    knee: episode?.tissue === 'joint' || /knee|acl|cruciate|menisc|patell/.test(where),
    hip: /hip|groin|femor|pelvi|pubi|sacr/.test(where),
    afterSurgery: since !== undefined && since >= 0 && since <= clinic.checkIn.surgeryQuestionsWeeks * 7,
  }
}

/** The groups of signs that belong to the case; each needs an explicit answer. */
export function groupsFor(patient: Case): readonly SignGroup[] {
  return [
    'always',
    ...(patient.afterSurgery ? (['surgery'] as const) : []),
    ...(patient.tissue === 'bone' ? (['bone'] as const) : []),
    ...(patient.knee ? (['knee'] as const) : []),
  ]
}

export function morningOf(chart: Chart, checkIn: CheckIn, patient: Case): Morning {
  const before = chart.checkIns.filter((earlier) => earlier.day < checkIn.day).slice(-7)
  const usualPain = before.length === 0 ? undefined : Math.min(...before.map((earlier) => earlier.worstPain))
  const { temperature, swelling, worstPain } = checkIn
  return {
    signs: ticked(checkIn.signs),
    temperatureC: typeof temperature === 'number' ? temperature : undefined,
    moreSwollen: swelling,
    worstPain,
    usualPain,
    heard: saidIn(checkIn.heard ?? []),
    patient,
  }
}

/** A morning on which nothing was answered: what was said in a note stands by itself. */
export function onlyHeard(heard: readonly Heard[], patient: Case): Morning {
  return {
    signs: new Set(),
    temperatureC: undefined,
    moreSwollen: 'no',
    worstPain: 0,
    usualPain: undefined,
    heard: saidIn(heard),
    patient,
  }
}

function saidIn(heard: readonly Heard[]): ReadonlySet<Said> {
  return new Set(heard.map(({ topic, tier }): Said => `${topic}/${tier}`))
}
