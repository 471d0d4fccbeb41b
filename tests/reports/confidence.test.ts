import { beforeAll, describe, expect, test } from 'vitest'
import { type Chart, readChart } from '../../src/chart/chart.ts'
import type { Entry } from '../../src/chart/entries.ts'
import type { Team } from '../../src/chart/roster.ts'
import { archive } from '../../src/reports/archive.ts'
import { asHandedTo } from '../../src/reports/confidence.ts'
import { csvTables } from '../../src/reports/csv-tables.ts'
import { fhirBundle } from '../../src/reports/fhir/bundle.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
let chart: Chart
let team: Team

beforeAll(async () => {
  record = await twoWeeks()
  team = record.team
  chart = readChart('mika', [...record.chart.entries, ...inConfidence()])
})

/** Mika writes of dark thoughts; the licensed person is called, and the bot's own call is audited. */
function inConfidence(): Entry[] {
  const base = { athlete: 'mika', author: 'sanderling', recordedAt: record.now }
  const id = 'escalation/support/mika/2026-03-30'
  const because = [{ finding: 'self-harm', words: 'Words of self-harm.', source: 'common-practice' }]
  const callList = [{ person: 'liv', ackWithinMinutes: 10 }]
  return [
    {
      ...base,
      author: 'mika',
      id: 'check-in/mika/2026-03-30',
      kind: 'check-in',
      day: '2026-03-30',
      worstPain: 0,
      morningPain: 0,
      swelling: 'no',
      signs: { always: [], bone: [] },
      note: 'DARKWORDS',
      heard: [{ topic: 'self-harm', tier: 'emergency', pattern: 'dark', sentence: 'DARKWORDS' }],
    },
    {
      ...base,
      id,
      kind: 'escalation-opened',
      concern: 'support',
      about: 'check-in/mika/2026-03-30',
      tier: 'emergency',
      because,
      callList,
    },
    {
      ...base,
      id: `${id}/call/1`,
      kind: 'call-made',
      escalation: id,
      call: 1,
      person: 'liv',
      why: 'opened',
      ackBy: record.now,
    },
    { ...base, id: 'hold/support/mika', kind: 'hold', about: id, because },
    {
      ...base,
      author: 'liv',
      id: 'hold-lifted/mika/7',
      kind: 'hold-lifted',
      hold: 'hold/support/mika',
      words: 'Talked it through.',
    },
    { ...base, id: 'hold/support/mika/2', kind: 'hold', about: id, because },
    {
      ...base,
      id: 'escalation/audit/1',
      kind: 'escalation-opened',
      concern: 'audit',
      about: id,
      tier: 'urgent',
      because,
      callList,
    },
  ]
}

const secret = /DARKWORDS|self-harm|Talked it through|(escalation|hold)\/support/

describe('what was told in confidence', () => {
  for (const reader of ['iben', 'sunniva', 'noor'])
    test(`is in no export that ${reader} takes`, async () => {
      const handed = asHandedTo(reader, chart, team)
      const all = [
        JSON.stringify(handed.entries),
        JSON.stringify(fhirBundle(handed, team, record.now)),
        ...csvTables(handed, team).map(({ text }) => text),
      ]
      expect(all.filter((text) => secret.test(text)).length).toBe(0)
      expect((await archive(handed, team, record.now)).length).toBeGreaterThan(1000)
    })

  for (const reader of ['mika', 'liv'])
    test(`goes to ${reader}, who told it or was called about it`, () => {
      const handed = asHandedTo(reader, chart, team)
      expect(secret.test(JSON.stringify(handed.entries))).toBe(true)
      expect(JSON.stringify(fhirBundle(handed, team, record.now))).toContain('DARKWORDS')
    })

  test('leaves the hold in sight, without its reason', () => {
    const handed = asHandedTo('iben', chart, team)
    expect(handed.holds.map((hold) => hold.because[0]?.words)).toEqual(['On hold by the care team.'])
  })

  test('leaves the answers of that morning in sight, without the words', () => {
    const morning = asHandedTo('iben', chart, team).checkIns.at(-1)
    expect(morning).toMatchObject({ day: '2026-03-30', worstPain: 0 })
    expect(morning?.note).toBeUndefined()
  })

  test('takes no ordinary note with it', () => {
    const handed = asHandedTo('iben', chart, team)
    expect(handed.checkIns.find((one) => one.day === '2026-03-24')?.note).toContain('it woke me')
  })

  test("the clinic's audit of its own calls goes out to nobody", () => {
    for (const reader of ['mika', 'iben', 'liv'])
      expect(asHandedTo(reader, chart, team).entries.some((entry) => entry.id === 'escalation/audit/1')).toBe(
        false,
      )
  })
})
