import { beforeAll, describe, expect, test } from 'vitest'
import { pictured } from '../../src/reports/picture.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
beforeAll(async () => {
  record = await twoWeeks()
})

describe('what the picture shows', () => {
  test('a day without an answer has no pain, not pain 0', () => {
    const shown = pictured(record.chart, '2026-03-29')
    expect(shown.morning.has('2026-03-19')).toBe(false)
    expect(shown.missed.has('2026-03-19')).toBe(true)
    expect(shown.morning.get('2026-03-24')).toBe(4)
  })

  test('no more than the last four weeks', () => {
    const shown = pictured(record.chart, '2026-06-01')
    expect(shown.days).toHaveLength(28)
    expect(shown.days.at(-1)).toBe('2026-06-01')
  })
})
