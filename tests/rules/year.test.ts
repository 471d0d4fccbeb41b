import { describe, expect, test } from 'vitest'
import { type Chart, readChart, withEntries } from '../../src/chart/chart.ts'
import { type Day, dayAt, instantAt, plusDays, plusMinutes } from '../../src/chart/day.ts'
import { type Entry, Entry as EntrySchema } from '../../src/chart/entries.ts'
import { readRoster, type Team } from '../../src/chart/roster.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { nextDue, whatIsDue } from '../../src/rules/due.ts'

const team: Team = { clinic: openLibrary('shared').clinic, roster: readRoster([]) }

/** Each athlete lives a year that has something to trip over. */
const lives = [
  { zone: 'Europe/Lisbon', from: '2026-01-01', promptAt: '06:30', why: 'summer in the north' },
  {
    zone: 'America/New_York',
    from: '2026-01-01',
    promptAt: '02:30',
    why: 'the spring change skips the hour of the prompt',
  },
  {
    zone: 'Australia/Lord_Howe',
    from: '2026-01-01',
    promptAt: '01:45',
    why: 'summer in the south, and half an hour that comes twice',
  },
  { zone: 'Asia/Kolkata', from: '2026-01-01', promptAt: '06:30', why: 'half an hour off, no changes' },
  {
    zone: 'America/Asuncion',
    from: '2024-01-01',
    promptAt: '00:15',
    why: 'changes at midnight, and the last of them: the rule was abolished in October 2024',
  },
  {
    zone: 'Pacific/Apia',
    from: '2011-07-01',
    promptAt: '06:30',
    why: 'moved across the date line: there was no 30 December 2011',
  },
]

describe('a year, minute by minute: every own day asks once', () => {
  for (const { zone, from, promptAt, why } of lives)
    test(`${zone} from ${from} at ${promptAt}: ${why}`, () => {
      const start = instantAt(from, '12:00', zone)
      const minutes = 365 * 24 * 60
      let chart = enrolled(zone, promptAt, start)
      const askedAt = new Map<Day, string>()
      const days = new Set<Day>()
      for (let minute = 1; minute <= minutes; minute += 1) {
        const now = plusMinutes(start, minute)
        const decision = whatIsDue(chart, team, now)
        if (decision.entries.length > 0) chart = withEntries(chart, answered(chart, decision.entries, now))
        for (const entry of decision.entries)
          if (entry.kind === 'prompt') {
            expect(askedAt.has(entry.day), `asked twice on ${entry.day}`).toBe(false)
            askedAt.set(entry.day, now)
          }
        if (minute % 30 === 0) days.add(dayAt(now, zone))
      }
      const lived = [...days].slice(1)
      expect([...askedAt.keys()]).toEqual(lived.slice(0, askedAt.size))
      expect(
        lived.length - askedAt.size,
        'only the last day may still wait for its hour',
      ).toBeLessThanOrEqual(1)
      for (const [day, now] of askedAt) expect(now).toBe(instantAt(day, promptAt, zone))
      expect(new Set(chart.entries.map((entry) => entry.id)).size).toBe(chart.entries.length)
    })

  test('the day that Apia skipped is the only one without a question', () => {
    const days = daysAsked('Pacific/Apia', '06:30', '2011-12-20', 20)
    expect(days).toContain('2011-12-29')
    expect(days).not.toContain('2011-12-30')
    expect(days).toContain('2011-12-31')
  })
})

test('looking only when nextDue says so finds what a look every minute finds', () => {
  for (const { zone, from, promptAt } of lives) {
    const start = instantAt(from, '12:00', zone)
    const end = instantAt(plusDays(from, 365), '12:00', zone)
    let chart = enrolled(zone, promptAt, start)
    for (let now = start; now <= end; ) {
      const decision = whatIsDue(chart, team, now)
      chart = withEntries(chart, answered(chart, decision.entries, now))
      const next = nextDue(chart, team, now)
      expect(next !== null && next > now, `${zone} has something ahead at ${now}`).toBe(true)
      now = next ?? end
    }
    const asked = [...chart.prompts].map((day) => instantAt(day, promptAt, zone))
    const prompts = chart.entries.filter((entry) => entry.kind === 'prompt').map((entry) => entry.recordedAt)
    expect(prompts).toEqual(asked)
    expect(prompts.length).toBeGreaterThanOrEqual(363)
  }
})

describe('travel: the zone of an athlete changes', () => {
  const journeys = [
    { what: 'east over the date line', from: 'Pacific/Honolulu', to: 'Pacific/Auckland' },
    { what: 'west over the date line', from: 'Pacific/Auckland', to: 'Pacific/Honolulu' },
    { what: 'an hour west', from: 'Europe/Lisbon', to: 'Atlantic/Azores' },
    { what: 'half a day east', from: 'America/New_York', to: 'Asia/Kolkata' },
  ]
  for (const { what, from, to } of journeys)
    test(`${what}, at any hour: no own day asks twice, and none goes by without a word`, () => {
      for (let hour = 0; hour < 24; hour += 1) {
        const start = instantAt('2026-06-01', '12:00', from)
        const movedAt = plusMinutes(start, (3 * 24 + hour) * 60)
        let chart = enrolled(from, '06:30', start)
        for (let quarter = 1; quarter <= 7 * 96; quarter += 1) {
          const now = plusMinutes(start, quarter * 15)
          if (now === movedAt) chart = withEntries(chart, [enrolment(to, '06:30', now, 2)])
          chart = withEntries(chart, whatIsDue(chart, team, now).entries)
        }
        const end = plusMinutes(start, 7 * 24 * 60)
        const days = chart.entries.flatMap((entry) => (entry.kind === 'prompt' ? [entry.day] : []))
        expect(new Set(days).size, `${hour} h`).toBe(days.length)
        const leftOn = dayAt(movedAt, from)
        const arrivedOn = dayAt(movedAt, to)
        for (let day = dayAt(plusMinutes(start, 1440), from); day < dayAt(end, to); day = plusDays(day, 1)) {
          const dawned = day !== leftOn || instantAt(day, '06:30', from) <= movedAt
          const lived = (day <= leftOn && dawned) || day >= arrivedOn
          expect(chart.prompts.has(day) || chart.missed.has(day), `${day} after a move at ${hour} h`).toBe(
            lived,
          )
        }
      }
    })

  test('enrolled anew at night, the same morning still asks', () => {
    let chart = enrolled('Europe/Lisbon', '06:30', instantAt('2026-06-01', '12:00', 'Europe/Lisbon'))
    const night = instantAt('2026-06-03', '03:00', 'Europe/Lisbon')
    chart = withEntries(chart, [enrolment('Europe/Lisbon', '06:30', night, 2)])
    const due = whatIsDue(chart, team, instantAt('2026-06-03', '06:30', 'Europe/Lisbon'))
    expect(due.entries.map((entry) => entry.kind)).toEqual(['prompt'])
  })
})

function daysAsked(zone: string, promptAt: string, from: Day, count: number): Day[] {
  const start = instantAt(from, '12:00', zone)
  let chart = enrolled(zone, promptAt, start)
  for (let minute = 1; minute <= count * 1440; minute += 1) {
    const { entries } = whatIsDue(chart, team, plusMinutes(start, minute))
    if (entries.length > 0) chart = withEntries(chart, entries)
  }
  return [...chart.prompts]
}

/** Every other morning is answered at once; the others are silent. */
function answered(chart: Chart, due: readonly Entry[], now: string): Entry[] {
  const prompt = due.find((entry) => entry.kind === 'prompt')
  if (prompt?.kind !== 'prompt' || chart.prompts.size % 2 === 0) return [...due]
  const { athlete, day } = prompt
  const checkIn = EntrySchema.parse({
    id: `check-in/${athlete}/${day}`,
    athlete,
    author: athlete,
    recordedAt: now,
    kind: 'check-in',
    day,
    worstPain: 0,
    morningPain: 0,
    swelling: 'no',
    signs: { always: [], bone: [] },
  })
  return [...due, checkIn]
}

function enrolled(zone: string, promptAt: string, now: string): Chart {
  const episode = EntrySchema.parse({
    id: 'episode/mika/1',
    athlete: 'mika',
    author: 'iben',
    recordedAt: now,
    kind: 'episode',
    diagnosis: 'tibial stress reaction',
    tissue: 'bone',
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: '2011-01-01',
  })
  return readChart('mika', [enrolment(zone, promptAt, now, 1), episode])
}

function enrolment(timeZone: string, promptAt: string, now: string, number: number): Entry {
  return EntrySchema.parse({
    id: `enrolment/mika/${number}`,
    athlete: 'mika',
    author: 'iben',
    recordedAt: now,
    kind: 'enrolment',
    timeZone,
    promptAt,
    therapist: 'iben',
    coaches: [],
    consentToCoach: false,
    precautions: [],
  })
}
