import { expect, test } from 'vitest'
import { instantAt, plusMinutes, wallTimeAt } from '../../src/chart/day.ts'
import { readRoster, type Team } from '../../src/chart/roster.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { quietUntil } from '../../src/rules/quiet-hours.ts'

const { clinic } = openLibrary('shared')
const zones = [
  'Europe/Lisbon',
  'America/New_York',
  'Australia/Lord_Howe',
  'Asia/Kolkata',
  'America/Asuncion',
  'Pacific/Apia',
]

function teamIn(timeZone: string, from: string, until: string): Team {
  const person = {
    id: 'iben',
    name: 'Iben',
    roles: ['therapist' as const],
    chatUser: 'U1',
    timeZone,
    active: true,
  }
  const entry = { id: 'person/1', author: 'sunniva', recordedAt: '2011-01-01T00:00:00.000Z' }
  return {
    clinic: { ...clinic, quietHours: { from, until } },
    roster: readRoster([{ ...entry, kind: 'person', person }]),
  }
}

for (const zone of zones)
  test(`quiet hours across midnight end the next morning, on every night of a year in ${zone}`, () => {
    const team = teamIn(zone, '22:00', '07:00')
    const start = instantAt('2024-01-01', '12:00', zone)
    for (let quarter = 0; quarter < 366 * 96; quarter += 1) {
      const now = plusMinutes(start, quarter * 15)
      const wall = wallTimeAt(now, zone)
      const until = quietUntil(team, 'iben', now)
      if ((until !== undefined) !== (wall >= '22:00' || wall < '07:00'))
        expect.fail(`${wall} at ${now}: ${until}`)
      if (until === undefined) continue
      const hours = (Date.parse(until) - Date.parse(now)) / 3_600_000
      if (!(hours > 0 && hours <= 10 && wallTimeAt(until, zone) === '07:00'))
        expect.fail(`${wall} at ${now} is held back until ${until}`)
    }
  })

test('quiet hours within one day hold back only there', () => {
  const team = teamIn('Europe/Lisbon', '13:00', '14:00')
  const at = (time: string) => quietUntil(team, 'iben', instantAt('2026-07-01', time, 'Europe/Lisbon'))
  expect(at('12:59')).toBeUndefined()
  expect(at('13:00')).toBe('2026-07-01T13:00:00.000Z')
  expect(at('14:00')).toBeUndefined()
})
