import { describe, expect, test } from 'vitest'
import { type ClinicEntry, type Role, readRoster } from '../../src/chart/roster.ts'
import { founds, missingFor, notSetUp } from '../../src/rules/set-up.ts'
import { library } from './life.ts'

const person = (id: string, roles: readonly Role[], active = true) => ({
  id,
  name: id,
  roles: [...roles],
  chatUser: `U-${id}`,
  timeZone: 'UTC',
  active,
})
const entry = (one: ReturnType<typeof person>): ClinicEntry => ({
  id: `person/${one.id}`,
  author: 'sunniva',
  recordedAt: '2026-01-01T08:00:00.000Z',
  kind: 'person',
  person: one,
})
const channel: ClinicEntry = {
  id: 'place/1',
  author: 'sunniva',
  recordedAt: '2026-01-01T08:00:00.000Z',
  kind: 'place',
  place: 'coaches',
  channel: 'C1',
}
const whole = [
  entry(person('sunniva', ['clinic-lead'])),
  entry(person('iben', ['therapist'])),
  entry(person('liv', ['therapist'])),
  channel,
]
const teamOf = (entries: readonly ClinicEntry[]) => ({ clinic: library.clinic, roster: readRoster(entries) })

describe('before anybody is written to', () => {
  test('all that is missing is said, each by itself', () => {
    expect(missingFor(teamOf([])).length).toBe(5)
    expect(missingFor(teamOf(whole))).toEqual([])
    expect(notSetUp(teamOf(whole))).toBeUndefined()
  })

  const cases = [
    { without: 3, says: "the coaches' channel" },
    { without: 2, says: 'licensed person' },
    { without: 0, says: 'last resort' },
  ]
  for (const { without, says } of cases)
    test(`without it: ${says}`, () => {
      const words = notSetUp(teamOf(whole.filter((_, i) => i !== without)))?.words
      expect(words).toContain(says)
    })

  test('somebody who has left does not count', () => {
    expect(missingFor(teamOf([...whole, entry(person('sunniva', ['clinic-lead'], false))]))).toContain(
      'a clinic lead',
    )
  })
})

describe('the very first person', () => {
  const lead = { kind: 'person' as const, person: person('ada', ['clinic-lead']) }
  test('may name themselves clinic lead while the journal is empty', () => {
    expect(founds(lead, 'ada', teamOf([]))).toBe(true)
  })

  const refused = [
    { what: 'once anything stands in the journal', submission: lead, by: 'ada', entries: [channel] },
    { what: 'somebody else than themselves', submission: lead, by: 'iben', entries: [] },
    {
      what: 'another role alone',
      submission: { ...lead, person: person('ada', ['therapist']) },
      by: 'ada',
      entries: [],
    },
    {
      what: 'a channel',
      submission: { kind: 'place' as const, place: 'coaches' as const, channel: 'C1' },
      by: 'ada',
      entries: [],
    },
  ]
  for (const { what, submission, by, entries } of refused)
    test(`not ${what}`, () => {
      expect(founds(submission, by, teamOf(entries))).toBe(false)
    })
})
