import { readChart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import { signs } from '../chart/signs.ts'
import { onCheckIn } from './check-in.ts'
import { type Decision, isRefusal } from './decision.ts'
import { type Case, groupsFor } from './morning.ts'
import { type Answer, type Block, blocksOf, entangledRows, morningFrom } from './red-flags-blocks.ts'
import { entriesOf, teamOf } from './red-flags-invented.ts'
import type { Submission } from './submissions.ts'
import { triageOf } from './triage.ts'
import type { WordList } from './words.ts'

/** How far a morning goes, from nothing to the worst. */
export const levels = [
  'nothing',
  'note',
  'note and hold',
  'urgent call and hold',
  'emergency call and hold',
] as const
export type Level = (typeof levels)[number]

export type CaseProof = {
  readonly patient: Case
  /** Size of each block of closed answers. */
  readonly blocks: Readonly<Record<string, number>>
  /** Combinations of all closed answers, by level; `morningPain` multiplies and decides nothing. */
  readonly counts: Readonly<Record<Level, bigint>>
  readonly total: bigint
  /** Mornings that were played through the whole rule, with its entries looked at. */
  readonly played: number
  readonly breaches: readonly string[]
}

type Setting = { readonly clinic: Clinic; readonly words: WordList }

/**
 * Every combination of the closed answers of one case. First the rows are shown to look at one block each; only then
 * the combinations are counted block by block, because the worst of the whole is the worst of its blocks. Then every
 * combination inside each block, and every combination of what blocks can come to, is played as a real check-in.
 */
export function proveCase(patient: Case, setting: Setting): CaseProof {
  const blocks = blocksOf(patient)
  const entangled = entangledRows(patient).map((row) => `${row} looks at more than one block`)
  const byLevel = blocks.map((block) => sorted(patient, block))
  const counts = product(byLevel.map((level) => level.map((answers) => BigInt(answers.length))))
  const inside = blocks.flatMap((block) => block.answers.filter(isWorthPlaying).map((answer) => [answer]))
  const across = representatives(byLevel)
  const mornings = [...inside, ...across]
  const breaches = mornings.flatMap((answers) => playedBreach(patient, answers, setting) ?? [])
  const morningPains = 11n
  return {
    patient,
    blocks: Object.fromEntries(blocks.map((block) => [block.name, block.answers.length])),
    counts: Object.fromEntries(levels.map((level, i) => [level, (counts[i] ?? 0n) * morningPains])) as Record<
      Level,
      bigint
    >,
    total: blocks.reduce((soFar, block) => soFar * BigInt(block.answers.length), morningPains),
    played: mornings.length,
    breaches: [...entangled, ...breaches],
  }
}

/** Counts the combinations one by one, without any factoring: the check on the arithmetic above. */
export function countOneByOne(patient: Case): { readonly counts: readonly number[]; readonly total: number } {
  const counts = levels.map(() => 0)
  let total = 0
  const walk = ([block, ...rest]: readonly Block[], chosen: readonly Answer[]): void => {
    if (!block) {
      const level = levelOf(patient, chosen)
      counts[level] = (counts[level] ?? 0) + 1
      total += 1
      return
    }
    for (const answer of block.answers) walk(rest, [...chosen, answer])
  }
  walk(blocksOf(patient), [])
  return { counts, total }
}

function levelOf(patient: Case, answers: readonly Answer[]): number {
  const { disposition, hold } = triageOf(morningFrom(patient, ...answers))
  if (disposition === 'stop') return 4
  if (disposition === 'refer') return 3
  return hold ? 2 : disposition === 'note' ? 1 : 0
}

/** The answers of a block by the level that they come to by themselves. */
function sorted(patient: Case, block: Block): readonly (readonly Answer[])[] {
  const byLevel: Answer[][] = levels.map(() => [])
  for (const answer of block.answers) byLevel[levelOf(patient, [answer])]?.push(answer)
  return byLevel
}

/** How many combinations come to each level: those at most that bad, less those at most one less bad. */
function product(byLevel: readonly (readonly bigint[])[]): readonly bigint[] {
  const atMost = levels.map((_, worst) =>
    byLevel.reduce((soFar, counts) => soFar * counts.slice(0, worst + 1).reduce((a, b) => a + b, 0n), 1n),
  )
  return atMost.map((count, i) => count - (atMost[i - 1] ?? 0n))
}

/** One answer for each level of each block, in every combination. */
function representatives(
  byLevel: readonly (readonly (readonly Answer[])[])[],
): readonly (readonly Answer[])[] {
  return byLevel.reduce<readonly (readonly Answer[])[]>(
    (soFar, block) => {
      const ones = block.flatMap((answers) => answers.at(-1) ?? [])
      return soFar.flatMap((chosen) => ones.map((one) => [...chosen, one]))
    },
    [[]],
  )
}

/** Temperatures between the edges add nothing to a played morning; they were all counted. */
function isWorthPlaying({ temperatureC }: Answer): boolean {
  return temperatureC === undefined || [30, 37.9, 38, 45].includes(temperatureC)
}

const day = '2026-05-12'
const now = `${day}T08:00:00.000Z`

/** Plays a morning and says what is wrong with what it led to; undefined when all is as it must be. */
function playedBreach(patient: Case, answers: readonly Answer[], setting: Setting): string | undefined {
  const level = levelOf(patient, answers)
  const decision = played(patient, answers, setting)
  if ('refused' in decision) return `${JSON.stringify(answers)}: refused: ${decision.words}`
  const { entries, notices } = decision
  const opened = entries.filter((entry) => entry.kind === 'escalation-opened')
  const calls = entries.filter((entry) => entry.kind === 'call-made')
  const holds = entries.filter((entry) => entry.kind === 'hold').length
  const runs = entries.filter((entry) => entry.kind === 'prescription').length
  const rung = notices.filter((notice) => notice.kind === 'call')
  const told = notices.some((notice) => notice.kind === 'stop')
  const wanted = level === 4 ? 'emergency' : 'urgent'
  const right =
    level >= 3
      ? opened.length === 1 &&
        opened[0]?.tier === wanted &&
        calls.length === 1 &&
        calls[0]?.person === 'treating' &&
        rung.length === 1 &&
        told &&
        holds === 1 &&
        runs === 0
      : opened.length + calls.length + rung.length === 0 &&
        holds === (level === 2 ? 1 : 0) &&
        runs === (level === 2 ? 0 : 1)
  return right ? undefined : `${JSON.stringify(answers)} should come to "${levels[level]}"`
}

function played(
  patient: Case,
  answers: readonly Answer[],
  { clinic, words }: Setting,
): Decision | { refused: string; words: string } {
  const all: Answer = Object.assign({}, ...answers)
  const chart = readChart('ada', entriesOf(patient, all.usualPain, day))
  const ticked = new Set<string>(answers.flatMap((answer) => answer.signs ?? []))
  const groups = groupsFor(patient)
  const signsOf = (group: string, of: readonly string[]) =>
    groups.some((g) => g === group) ? [[group, of]] : []
  const submission = {
    kind: 'check-in',
    athlete: 'ada',
    day,
    answers: {
      worstPain: all.worstPain ?? 0,
      morningPain: 0,
      swelling: all.moreSwollen ?? 'no',
      ...(patient.afterSurgery ? { temperature: all.temperatureC ?? 'not taken' } : {}),
      signs: Object.fromEntries(
        Object.entries(groupNames).flatMap(([group, names]) =>
          signsOf(
            group,
            names.filter((name) => ticked.has(name)),
          ),
        ),
      ),
    },
  } as Extract<Submission, { kind: 'check-in' }>
  const decision = onCheckIn(chart, submission, 'ada', { team: teamOf(clinic), words, now })
  return isRefusal(decision) ? { refused: decision.refused, words: decision.words } : decision
}

const groupNames = Object.fromEntries(
  Object.entries(signs).map(([group, names]) => [group, Object.keys(names)]),
)
