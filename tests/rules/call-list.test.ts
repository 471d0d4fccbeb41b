import { expect, test } from 'vitest'
import { callListFor, supportList } from '../../src/rules/call-list.ts'
import { clinicFault } from '../../src/rules/clinic-answer.ts'
import { coveredBy, coverOf, isInHours, onCallNow, standInFor, startFault } from '../../src/rules/rota.ts'
import { adasChart, at, people, teamOf, without } from './clinic-of-tests.ts'

const order = (team = teamOf(), now = at('10:00')) =>
  callListFor(adasChart(), 'urgent', team, now).map(({ person }) => person)
const away = {
  kind: 'cover' as const,
  person: 'iben',
  coveredBy: 'kit',
  from: '2026-05-11',
  until: '2026-05-15',
  why: 'holiday' as const,
}
const duty = { kind: 'on-call' as const, person: 'kit', from: '2026-05-11', until: '2026-05-17' }

test('in hours: treating therapist, cover, clinic lead, who is the last resort as well', () => {
  expect(order()).toEqual(['iben', 'ravi', 'sunniva'])
})

test('a holiday puts whoever covers in the place of the therapist, and only for its days', () => {
  expect(order(teamOf(people, [away]))).toEqual(['kit', 'ravi', 'sunniva'])
  expect(order(teamOf(people, [away]), at('10:00', '2026-05-18'))).toEqual(['iben', 'ravi', 'sunniva'])
})

test('a cover that was withdrawn does not count', () => {
  const team = teamOf(people, [away, { kind: 'withdrawn', withdraws: `cover/${people.length + 1}` }])
  expect(order(team)).toEqual(['iben', 'ravi', 'sunniva'])
})

test('two who cover each other cover nobody: the list goes on to the next', () => {
  const team = teamOf(people, [away, { ...away, person: 'kit', coveredBy: 'iben' }])
  expect(standInFor(team, 'iben', at('10:00'))).toBeUndefined()
  expect(order(team)).toEqual(['ravi', 'sunniva'])
})

test('in the night an urgent call goes to whoever is on call first; the sleepers stay on the list behind', () => {
  expect(order(teamOf(people, [duty]), at('03:00'))).toEqual(['kit', 'iben', 'ravi', 'sunniva'])
})

test('in the night with nobody on call it still rings at once, from the top of the list', () => {
  expect(order(teamOf(), at('03:00'))).toEqual(['iben', 'ravi', 'sunniva'])
})

test('own hours count on the own wall', () => {
  const late = people.map((one) =>
    one.id === 'iben'
      ? {
          ...one,
          timeZone: 'America/New_York',
          hours: [{ days: ['tue' as const], from: '09:00', until: '17:00' }],
        }
      : one,
  )
  expect(isInHours(teamOf(late), 'iben', at('12:59'))).toBe(false)
  expect(isInHours(teamOf(late), 'iben', at('13:00'))).toBe(true)
})

test('on a day on which the clinic is closed nobody is in hours', () => {
  const closed = teamOf(people, [
    { kind: 'closed', from: '2026-05-12', until: '2026-05-12', words: 'holiday' },
    duty,
  ])
  expect(isInHours(closed, 'iben', at('10:00'))).toBe(false)
  expect(order(closed)[0]).toBe('kit')
})

test('whoever is on call and goes away is not on call', () => {
  const team = teamOf(people, [duty, { ...away, person: 'kit', coveredBy: 'ravi' }])
  expect(onCallNow(team, at('10:00'))).toBeUndefined()
})

test('a therapist whose account is gone is not on the list', () => {
  expect(order(teamOf(without('iben')))).toEqual(['ravi', 'sunniva'])
})

test('nobody at all is left: the last resort still stands on the list', () => {
  expect(order(teamOf([]))).toEqual(['sunniva'])
})

test('in confidence the list is the licensed person, whoever is away or on call', () => {
  expect(supportList('emergency', teamOf(people, [duty])).map(({ person }) => person)).toEqual(['liv'])
})

test('a hand-over for a range carries the caseload with it', () => {
  const team = teamOf(people, [away])
  expect(coveredBy(team, 'kit', at('10:00'))).toEqual(['iben'])
  expect(coveredBy(team, 'kit', at('10:00', '2026-05-16'))).toEqual([])
  expect(coverOf(team, 'iben', at('23:59', '2026-05-15'))?.coveredBy).toBe('kit')
})

test('a therapist names their own cover, the lead any, a coach none', () => {
  const lead = { id: 'sunniva', roles: ['clinic-lead' as const] }
  expect(clinicFault(away, { id: 'iben', roles: ['therapist'] }, teamOf())).toBeUndefined()
  expect(clinicFault(away, { id: 'ravi', roles: ['therapist'] }, teamOf())?.refused).toBe('not-yours')
  expect(clinicFault(away, { id: 'coco', roles: ['coach'] }, teamOf())?.refused).toBe('not-yours')
  expect(clinicFault({ ...away, coveredBy: 'coco' }, lead, teamOf())?.refused).toBe('no-cover')
  expect(clinicFault({ ...away, until: '2026-05-01' }, lead, teamOf())?.refused).toBe('backwards')
  expect(clinicFault({ ...duty, person: 'coco' }, lead, teamOf())?.refused).toBe('unknown-person')
})

test('the last resort cannot leave, and without one nothing starts', () => {
  const lead = { id: 'sunniva', roles: ['clinic-lead' as const] }
  const gone = without('sunniva').find((one) => one.id === 'sunniva')
  expect(gone && clinicFault({ kind: 'person', person: gone }, lead, teamOf())?.refused).toBe('last-resort')
  expect(startFault(teamOf())).toBeUndefined()
  expect(startFault(teamOf(without('sunniva')))).toContain('lastResort')
})
