import { describe, expect, test } from 'vitest'
import {
  type ConversionTable,
  convertSpeed,
  readConversionTable,
} from '../../src/science/conversion-table.ts'
import { isRefusal } from '../../src/science/refusal.ts'

/** Invented, in the right shape: not a published table. */
const invented: ConversionTable = {
  title: 'Invented for the test',
  source: 'nowhere',
  unit: 'mph',
  roundedTo: 0,
  groundSpeed: [4, 6, 10],
  bodyWeightPct: [50, 80, 100],
  machineSpeed: [
    [6, 5, 4.2],
    [8.4, 7.2, 6.2],
    [13, 11.5, 10.2],
  ],
}
const kind = (written: unknown) => {
  const table = readConversionTable(written)
  return isRefusal(table) ? table.refused : 'read'
}

test('a table of the documented shape is read and answers exactly in its cells', () => {
  const table = readConversionTable(invented)
  if (isRefusal(table)) throw new Error(table.words)
  expect(convertSpeed(table, 6, 80)).toBe(7.2)
  expect(convertSpeed(table, 4, 50)).toBe(6)
  expect(convertSpeed(table, 10, 100)).toBe(10.2)
})

test('between cells it goes straight both ways', () => {
  expect(convertSpeed(invented, 5, 65)).toBeCloseTo((6 + 5 + 8.4 + 7.2) / 4, 12)
})

test.each([
  [3.9, 80],
  [10.1, 80],
  [6, 49],
  [6, 101],
])('it is not stretched to %d mph at %d %%', (ground, pct) => {
  const answer = convertSpeed(invented, ground, pct)
  expect(isRefusal(answer) && answer.words).toContain('4 to 10 mph')
})

describe('a table that cannot be right is refused', () => {
  test('less weight that needs less speed', () => {
    expect(
      kind({
        ...invented,
        machineSpeed: [
          [4.2, 5, 6],
          [8.4, 7.2, 6.2],
          [13, 11.5, 10.2],
        ],
      }),
    ).toBe('breaks-published-shape')
  })
  test('a speed-up that grows with speed', () => {
    expect(
      kind({
        ...invented,
        machineSpeed: [
          [6, 5, 4.2],
          [8.4, 7.2, 6.2],
          [16, 12.5, 10.6],
        ],
      }),
    ).toBe('breaks-published-shape')
  })
  test('the same small break is rounding when the table says it is rounded', () => {
    const rounded = {
      ...invented,
      machineSpeed: [
        [6, 5, 4.2],
        [8.4, 7.5, 6.31],
        [13, 11.5, 10.2],
      ],
    }
    expect(kind(rounded)).toBe('breaks-published-shape')
    expect(kind({ ...rounded, roundedTo: 0.1 })).toBe('read')
  })
  test('a missing cell, a falling axis, a percentage above 100, a nameless table', () => {
    expect(
      kind({
        ...invented,
        machineSpeed: [
          [6, 5],
          [8.4, 7.2, 6.2],
          [13, 11.5, 10.2],
        ],
      }),
    ).toBe('unreadable')
    expect(kind({ ...invented, groundSpeed: [6, 4, 10] })).toBe('unreadable')
    expect(kind({ ...invented, bodyWeightPct: [50, 80, 120] })).toBe('unreadable')
    expect(kind({ ...invented, title: '' })).toBe('unreadable')
  })
})
