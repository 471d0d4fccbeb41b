import { describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { Role } from '../../src/chart/roster.ts'
import { run } from '../../src/commands/permissions.ts'
import { type Door, grants, may, notYours, type Reach } from '../../src/rules/permissions.ts'

const enrolment = {
  kind: 'enrolment',
  id: 'enrolment/mika/1',
  athlete: 'mika',
  author: 'iben',
  recordedAt: '2026-03-15T10:00:00.000Z',
  timeZone: 'UTC',
  promptAt: '06:30',
  therapist: 'iben',
  cover: 'ravi',
  coaches: ['noor'],
  consentToCoach: true,
  precautions: [],
} as const
const chart = readChart('mika', [{ ...enrolment, coaches: [...enrolment.coaches], precautions: [] }])
const unshared = readChart('mika', [
  { ...enrolment, coaches: [...enrolment.coaches], precautions: [], consentToCoach: false },
])

/** The whole matrix once more, written by hand: a grant that changes must be changed here too. */
const athlete: readonly Door[] = [
  'check-in',
  'typed-message',
  'session-done',
  'run-skipped',
  'exercise-done',
  'see-why',
]
const expected: Record<Role, Partial<Record<Door, Reach>>> = {
  athlete: {
    ...all(athlete, 'own'),
    ...all(['see-prescription', 'see-exercises', 'see-cleared'], 'own'),
    ...all(['exported', 'amendment-request', 'disagreement-stated'], 'own'),
  },
  coach: { 'see-cleared': 'squad' },
  'strength-coach': { 'exercise-done': 'squad', 'see-exercises': 'squad', 'see-cleared': 'squad' },
  therapist: {
    ...all(['session-done', 'run-skipped', 'exercise-done', 'episode', 'plan-signed', 'measure'], 'caseload'),
    ...all(['criteria-signed', 'review', 'clearance', 'hold', 'hold-lifted', 'amendment'], 'caseload'),
    ...all(['call-acknowledged', 'handed-over', 'escalation-closed'], 'caseload'),
    ...all(['see-chart', 'see-why', 'see-call-list', 'see-prescription', 'see-exercises'], 'caseload'),
    ...all(['exported', 'amendment-request', 'amendment-request-extended'], 'caseload'),
    ...all(['amendment-request-answered', 'see-cleared'], 'caseload'),
    enrolment: 'all',
    cover: 'own',
  },
  'clinic-lead': {
    ...all(['call-acknowledged', 'handed-over', 'escalation-closed', 'see-call-list'], 'all'),
    ...all(['person', 'place', 'cover', 'on-call', 'closed', 'withdrawn', 'settings'], 'all'),
    ...all(['see-people', 'see-figures', 'see-audit', 'exported', 'erased'], 'all'),
  },
}

/** Somebody of each role on whose chart it is, and somebody of the same role who has nothing to do with it. */
const people: Record<Reach, { readonly reached: string; readonly stranger: string | undefined }> = {
  own: { reached: 'mika', stranger: 'adaeze' },
  caseload: { reached: 'iben', stranger: 'tove' },
  squad: { reached: 'noor', stranger: 'olav' },
  all: { reached: 'anybody', stranger: undefined },
}
const doors = Object.keys(grants) as Door[]

describe('every cell of role and door: denied unless granted', () => {
  for (const role of Role.options)
    for (const door of doors) {
      const reach = expected[role][door]
      test(`${role}, ${door}: ${reach ?? 'denied'}`, () => {
        const can = (id: string) => may({ id, roles: [role] }, door, chart)
        if (!reach) {
          for (const id of ['mika', 'iben', 'ravi', 'noor', 'somebody']) expect(can(id)).toBe(false)
          return
        }
        const { reached, stranger } = people[reach]
        expect(can(reached)).toBe(true)
        if (stranger) expect(can(stranger)).toBe(false)
      })
    }

  test('the cover of the enrolment reaches the caseload, and so does whoever stands in today', () => {
    expect(may({ id: 'ravi', roles: ['therapist'] }, 'see-chart', chart)).toBe(true)
    expect(may({ id: 'tove', roles: ['therapist'], covers: ['iben'] }, 'see-chart', chart)).toBe(true)
    expect(may({ id: 'tove', roles: ['therapist'], covers: ['ravi'] }, 'see-chart', chart)).toBe(false)
  })

  test('without consent a coach reaches nothing at all', () => {
    for (const door of doors)
      for (const role of ['coach', 'strength-coach'] as const)
        expect(may({ id: 'noor', roles: [role] }, door, unshared)).toBe(false)
  })

  test('somebody without a role reaches nothing', () => {
    for (const door of doors) expect(may({ id: 'mika', roles: [] }, door, chart)).toBe(false)
  })
})

test('a refusal names whom to ask', () => {
  for (const door of doors) expect(notYours(door).words).toMatch(/^This is for the .+\. Please ask them\.$/)
})

test('the command prints one row a door and one column a role', async () => {
  const lines: string[] = []
  expect(await run([], (line) => lines.push(line))).toBe(0)
  expect(lines[0]?.trim().split(/\s+/)).toEqual([...Role.options])
  for (const door of doors) {
    const cells = lines
      .find((line) => line.startsWith(`${door} `))
      ?.trim()
      .split(/\s{2,}/)
      .slice(1)
    expect(cells).toEqual(Role.options.map((role) => expected[role][door] ?? '-'))
  }
})

function all<D extends Door>(names: readonly D[], reach: Reach): Record<D, Reach> {
  return Object.fromEntries(names.map((name) => [name, reach])) as Record<D, Reach>
}
