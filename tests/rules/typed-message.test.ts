import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { athlete } from './life.ts'

const sentences = ['sentences', 'held-out']
  .flatMap((name) => readFileSync(`tests/words/${name}.jsonl`, 'utf8').trim().split('\n'))
  .map((line) => JSON.parse(line) as { text: string; expect: string })

const ada = () =>
  athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' })
const at = '2026-03-02T12:00:00.000Z'
const ts = '1772452800.000100'

/** What came of it: who is called how urgently, whether running is on hold, who gets a note. */
function typed(words: string) {
  const chart = ada()
  chart.handIn('ada', 'athlete', at, { kind: 'typed-message', ts, words })
  return { chart: chart.chart(), ...outcome(chart), notices: chart.notices() }
}
function written(note: string) {
  const chart = ada()
  chart.morning('2026-03-02', { note })
  return outcome(chart)
}
function outcome(chart: ReturnType<typeof ada>) {
  const { escalations, holds } = chart.chart()
  return {
    calls: escalations.map(({ concern, tier }) => `${concern} ${tier}`),
    holds: holds.map(({ because }) => because.map(({ finding }) => finding).join()),
  }
}

describe('a message typed to the bot', () => {
  test(`leads to what the same words in a check-in lead to, over ${sentences.length} sentences`, () => {
    for (const { text } of sentences) {
      const { calls, holds } = typed(text)
      expect({ calls, holds }, text).toEqual(written(text))
    }
  })

  test('is kept in its words and reaches a human, whether or not the list knows them', () => {
    for (const { text } of sentences) {
      const { chart, notices } = typed(text)
      const entry = chart.entries.find((one) => one.kind === 'typed-message')
      if (entry?.kind !== 'typed-message') throw new Error(text)
      expect(entry.note, text).toBe(text)
      expect(notices.filter((notice) => !notice.endsWith(' to ada')).length, text).toBeGreaterThan(0)
    }
  })

  test('of which the list knows nothing is a note to the therapist, and rings nobody', () => {
    const { calls, holds, notices } = typed('thanks, see you on thursday')
    expect({ calls, holds }).toEqual({ calls: [], holds: [] })
    expect(notices).toEqual(expect.arrayContaining(['reply to ada', expect.stringMatching(/^note to /)]))
    expect(notices).toHaveLength(2)
  })

  test('without words, a file say, is answered and kept as that', () => {
    const { chart, notices } = typed('  ')
    const entry = chart.entries.find((one) => one.kind === 'typed-message')
    expect(entry).not.toHaveProperty('note')
    expect(notices).toEqual(['reply to ada'])
  })

  test('is answered whatever it says: no message is met with silence', () => {
    for (const { text } of sentences)
      expect(
        typed(text).notices.some((notice) => notice.endsWith(' to ada')),
        text,
      ).toBe(true)
  })

  test('the second one with the same stamp is refused as the first', () => {
    const chart = ada()
    const message = { kind: 'typed-message', ts, words: 'chest pain' }
    chart.handIn('ada', 'athlete', at, message)
    expect(() => chart.handIn('ada', 'athlete', at, message)).toThrow('already-recorded')
  })

  test('nobody types in the name of an athlete', () => {
    for (const [by, role] of [
      ['iben', 'therapist'],
      ['noor', 'coach'],
      ['sunniva', 'clinic-lead'],
    ] as const)
      expect(() => ada().handIn(by, role, at, { kind: 'typed-message', ts, words: 'hi' })).toThrow(
        'not-yours',
      )
  })
})
