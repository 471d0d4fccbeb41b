import { type Sign, type SignGroup, signs } from '../chart/signs.ts'
import type { Case, Morning } from './morning.ts'
import type { RedFlag } from './red-flag.ts'
import { redFlags } from './red-flags.ts'

/** Closed answers that belong together: every combination of them, and which parts of a morning they set. */
export type Block = {
  readonly name: string
  readonly answers: readonly Answer[]
  readonly signs: ReadonlySet<Sign>
  readonly fields: ReadonlySet<'temperatureC' | 'moreSwollen' | 'worstPain' | 'usualPain'>
}

export type Answer = {
  readonly signs?: readonly Sign[]
  readonly temperatureC?: number | undefined
  readonly moreSwollen?: Morning['moreSwollen']
  readonly worstPain?: number
  readonly usualPain?: number | undefined
}

/** The blocks of closed answers that a case is asked, each with every combination that the form allows. */
export function blocksOf(patient: Case): readonly Block[] {
  const none = new Set<never>()
  const pains = Array.from({ length: 11 }, (_, pain) => pain)
  const withSigns = (group: SignGroup, answers = subsets(group)): Block => {
    return { name: group, answers, signs: new Set(Object.keys(signs[group]) as Sign[]), fields: none }
  }
  const swelling = (['no', 'yes', 'not sure'] as const).map((moreSwollen) => ({ moreSwollen }))
  const pain = pains.flatMap((worstPain) =>
    [undefined, ...pains].map((usualPain) => ({ worstPain, usualPain })),
  )
  const surgery = subsets('surgery').flatMap((answer) =>
    temperatures().map((temperatureC) => ({ ...answer, temperatureC })),
  )
  return [
    withSigns('always'),
    ...(patient.afterSurgery
      ? [{ ...withSigns('surgery', surgery), fields: new Set(['temperatureC'] as const) }]
      : []),
    ...(patient.tissue === 'bone' ? [withSigns('bone')] : []),
    ...(patient.knee ? [withSigns('knee')] : []),
    { name: 'swelling', answers: swelling, signs: none, fields: new Set(['moreSwollen'] as const) },
    { name: 'pain', answers: pain, signs: none, fields: new Set(['worstPain', 'usualPain'] as const) },
  ]
}

/** Every case that can be: which tissue, whether knee or hip, whether soon after surgery. */
export function allCases(): readonly Case[] {
  const either = [false, true]
  return (['bone', 'joint', 'tendon', 'muscle'] as const).flatMap((tissue) =>
    either.flatMap((knee) =>
      either.flatMap((hip) =>
        either.flatMap((afterSurgery) =>
          tissue === 'joint' && !knee ? [] : [{ tissue, knee, hip, afterSurgery }],
        ),
      ),
    ),
  )
}

/** The morning that these answers make, everything else answered with "none", nothing said. */
export function morningFrom(patient: Case, ...answers: readonly Answer[]): Morning {
  const all: Answer = Object.assign({}, ...answers)
  return {
    signs: new Set(answers.flatMap((answer) => answer.signs ?? [])),
    temperatureC: all.temperatureC,
    moreSwollen: all.moreSwollen ?? 'no',
    worstPain: all.worstPain ?? 0,
    usualPain: all.usualPain,
    heard: new Set(),
    patient,
  }
}

/**
 * Shows that blocks are independent: every row is asked about every combination of one block, and whoever looks at
 * an answer outside that block is caught. A row that is never caught depends on that block alone. Returns the rows
 * that depend on more than one block: empty is the proof that worst-of-blocks is worst-of-all.
 */
export function entangledRows(
  patient: Case,
  rows: readonly Pick<RedFlag, 'finding' | 'holds'>[] = redFlags,
): readonly string[] {
  const blocks = blocksOf(patient)
  const asked = new Set(blocks.flatMap((block) => [...block.signs]))
  const alone = (block: Block, holds: (morning: Morning) => boolean) =>
    block.answers.every((answer) => {
      const trap = { sprung: false }
      holds(guarded(morningFrom(patient, answer), block, asked, trap))
      return !trap.sprung
    })
  return rows.filter((flag) => !blocks.some((block) => alone(block, flag.holds))).map((flag) => flag.finding)
}

/** Signs that the case is not asked about cannot be ticked: they are "no" for everybody and no dependence. */
function guarded(
  morning: Morning,
  block: Block,
  asked: ReadonlySet<Sign>,
  trap: { sprung: boolean },
): Morning {
  return new Proxy(morning, {
    get(target, field: keyof Morning) {
      if (field === 'signs')
        return {
          has: (sign: Sign) => {
            if (asked.has(sign) && !block.signs.has(sign)) trap.sprung = true
            return target.signs.has(sign)
          },
        }
      if (field !== 'heard' && field !== 'patient' && !(block.fields as ReadonlySet<string>).has(field)) {
        const isAsked = field !== 'temperatureC' || target.patient.afterSurgery
        if (isAsked) trap.sprung = true
      }
      return target[field]
    },
  })
}

function subsets(group: SignGroup): readonly { readonly signs: readonly Sign[] }[] {
  const all = Object.keys(signs[group]) as Sign[]
  return Array.from({ length: 2 ** all.length }, (_, bits) => ({
    signs: all.filter((_, i) => (bits >> i) & 1),
  }))
}

/** Not taken, and every tenth of a degree that the form takes. */
function temperatures(): readonly (number | undefined)[] {
  return [undefined, ...Array.from({ length: 151 }, (_, i) => (300 + i) / 10)]
}
