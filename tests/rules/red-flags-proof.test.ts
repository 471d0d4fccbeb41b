import { expect, test } from 'vitest'
import { allCases, blocksOf, entangledRows } from '../../src/rules/red-flags-blocks.ts'
import { countOneByOne, levels, proveCase } from '../../src/rules/red-flags-proof.ts'
import { clinic, words } from './clinic-of-tests.ts'

const shortest = { tissue: 'muscle', knee: false, hip: false, afterSurgery: false } as const

test('in every case no row looks at answers of more than one block', () => {
  for (const patient of allCases()) expect(entangledRows(patient)).toEqual([])
})

test('a row that looks at two blocks is caught', () => {
  const patient = { ...shortest, tissue: 'bone' } as const
  const planted = {
    finding: 'planted',
    holds: (m: { signs: { has(s: 'chest-pain' | 'sore-spot'): boolean } }) =>
      m.signs.has('chest-pain') && m.signs.has('sore-spot'),
  }
  expect(entangledRows(patient, [planted])).toEqual(['planted'])
})

test('counting block by block comes to the same as counting one by one', () => {
  const { counts } = proveCase(shortest, { clinic, words })
  const oneByOne = countOneByOne(shortest)
  expect(levels.map((level) => counts[level])).toEqual(oneByOne.counts.map((count) => BigInt(count) * 11n))
  expect(oneByOne.total).toBe(blocksOf(shortest).reduce((size, block) => size * block.answers.length, 1))
})

test('a knee soon after surgery: every combination with a flag rings and holds, every one without does neither', () => {
  const { breaches, counts, total } = proveCase(
    { tissue: 'joint', knee: true, hip: false, afterSurgery: true },
    { clinic, words },
  )
  expect(breaches).toEqual([])
  expect(Object.values(counts).reduce((sum, count) => sum + count, 0n)).toBe(total)
})
