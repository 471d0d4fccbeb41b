import { describe, expect, test } from 'vitest'
import { readChart, withEntries } from '../../src/chart/chart.ts'
import type { Instant } from '../../src/chart/day.ts'
import { listDue, nextDue, whatIsDue } from '../../src/rules/due.ts'
import { athlete, type Case, team } from './life.ts'

const tibia: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp', state: 'unloaded running' }
const at = (time: string, day = '2026-03-02'): Instant => `${day}T${time}:00.000Z`
const { remindAfterMinutes, cutOffAfterMinutes } = team.clinic.checkIn

/** The day of Ada, asked at half past six, as far as it has gone by these times. */
function lived(times: readonly string[], day = '2026-03-02') {
  let chart = athlete(tibia).chart()
  for (const time of times) chart = withEntries(chart, whatIsDue(chart, team, at(time, day)).entries)
  return chart
}
const kindsAt = (chart: ReturnType<typeof lived>, time: string, day?: string) =>
  whatIsDue(chart, team, at(time, day)).entries.map(({ kind, id }) => `${kind} ${id}`)
const clock = (minutesAfterPrompt: number) => {
  const minutes = 6 * 60 + 30 + minutesAfterPrompt
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
}

describe('the morning of one athlete', () => {
  test('nothing before half past six, the question at half past six, once', () => {
    expect(kindsAt(lived([]), '06:29')).toEqual([])
    expect(kindsAt(lived([]), '06:30')).toEqual(['prompt prompt/ada/2026-03-02'])
    expect(kindsAt(lived(['06:30']), '06:31')).toEqual([])
  })
  test('the question can be asked until the day is written down as missed', () => {
    const [notice] = whatIsDue(lived([]), team, at('06:30')).notices
    expect(notice).toEqual({
      key: 'prompt/ada/2026-03-02',
      kind: 'prompt',
      to: { person: 'ada' },
      athlete: 'ada',
      about: 'prompt/ada/2026-03-02',
      queuedAt: at('06:30'),
      useBy: at(clock(cutOffAfterMinutes)),
    })
  })
  test('one reminder, in its minute and not before it', () => {
    const asked = lived(['06:30'])
    expect(kindsAt(asked, clock(remindAfterMinutes - 1))).toEqual([])
    expect(kindsAt(asked, clock(remindAfterMinutes))).toEqual([
      'check-in-reminded check-in-reminded/ada/2026-03-02',
    ])
    const [reminder] = whatIsDue(asked, team, at(clock(remindAfterMinutes))).notices
    expect(reminder).toMatchObject({
      key: 'check-in-reminded/ada/2026-03-02',
      kind: 'reminder',
      to: { person: 'ada' },
    })
    expect(kindsAt(lived(['06:30', clock(remindAfterMinutes)]), clock(remindAfterMinutes + 1))).toEqual([])
  })
  test('a silence is written down at the cut-off and not a minute before', () => {
    const reminded = lived(['06:30', clock(remindAfterMinutes)])
    expect(kindsAt(reminded, clock(cutOffAfterMinutes - 1))).toEqual([])
    expect(kindsAt(reminded, clock(cutOffAfterMinutes))[0]).toMatch(/^check-in-missed /)
    const missed = lived(['06:30', clock(remindAfterMinutes), clock(cutOffAfterMinutes)])
    expect(kindsAt(missed, clock(cutOffAfterMinutes + 1))).toEqual([])
  })
  test('nothing more is asked of somebody who has answered', () => {
    const ada = athlete(tibia)
    ada.morning('2026-03-02')
    expect(kindsAt(ada.chart(), '08:00')).toEqual([])
    expect(kindsAt(ada.chart(), '20:00')).toEqual([])
  })
  test('not on the day of the enrolment, nor of somebody without an episode or not enrolled', () => {
    const ada = athlete(tibia)
    expect(kindsAt(ada.chart(), '18:00', '2026-03-01')).toEqual([])
    ada.byTherapist('2026-03-01', { kind: 'amendment', strikes: 'episode/ada/1', words: 'Wrong side.' })
    expect(kindsAt(ada.chart(), '07:00')).toEqual([])
    expect(nextDue({ ...ada.chart(), clearance: undefined }, team, at('07:00'))).toBeNull()
    expect(nextDue(readChart('ada', []), team, at('07:00'))).toBeNull()
    expect(whatIsDue(readChart('ada', []), team, at('07:00'))).toEqual({ entries: [], notices: [] })
  })
  test('enrolled anew, as after a move, costs no morning', () => {
    const ada = athlete(tibia)
    ada.byTherapist(
      '2026-03-02',
      {
        kind: 'enrolment',
        timeZone: 'UTC',
        promptAt: '07:30',
        therapist: 'iben',
        coaches: [],
        consentToCoach: true,
        precautions: [],
      },
      '05:00',
    )
    expect(kindsAt(ada.chart(), '07:30')).toEqual(['prompt prompt/ada/2026-03-02'])
  })
})

describe('when to look again', () => {
  const next = (times: readonly string[], now: string) => nextDue(lived(times), team, at(now))
  test('at the question, at the reminder, at the cut-off, and then at the next question', () => {
    expect(next([], '05:00')).toBe(at('06:30'))
    expect(next(['06:30'], '06:31')).toBe(at(clock(remindAfterMinutes)))
    const reminded = ['06:30', clock(remindAfterMinutes)]
    expect(next(reminded, clock(remindAfterMinutes + 1))).toBe(at(clock(cutOffAfterMinutes)))
    const missed = [...reminded, clock(cutOffAfterMinutes)]
    expect(next(missed, clock(cutOffAfterMinutes + 1))).toBe(at('06:30', '2026-03-03'))
  })
  test('after an answer tomorrow, and a clearance that lapses before that comes first', () => {
    const ada = athlete({ ...tibia, clearedUntil: '2026-03-02' })
    ada.morning('2026-03-02')
    expect(nextDue(ada.chart(), team, at('08:00'))).toBe(at('00:00', '2026-03-03'))
    const later = athlete(tibia)
    later.morning('2026-03-02')
    expect(nextDue(later.chart(), team, at('08:00'))).toBe(at('06:30', '2026-03-03'))
  })
})

describe("the coaches' list", () => {
  const clinic = { ...team.clinic, timeZone: 'UTC', listAt: '08:00' }
  const of = (roster: object) => ({ clinic, roster: { ...team.roster, ...roster } })
  const channel = { coachesChannel: 'C-coaches' }
  test('at its hour and not before, once a day, where a channel is named', () => {
    expect(listDue(of(channel), at('07:59'))).toBeUndefined()
    expect(listDue(of(channel), at('08:00'))).toEqual({
      entry: {
        id: 'list/2026-03-02',
        author: 'sanderling',
        recordedAt: at('08:00'),
        kind: 'list-posted',
        day: '2026-03-02',
      },
      notice: {
        key: 'list/2026-03-02',
        kind: 'list',
        to: { place: 'coaches' },
        about: '2026-03-02',
        surface: 'list/2026-03-02',
        queuedAt: at('08:00'),
        useBy: at('00:00', '2026-03-03'),
      },
    })
    expect(listDue(of({ ...channel, listDay: '2026-03-02' }), at('08:00'))).toBeUndefined()
    expect(listDue(of({ ...channel, listDay: '2026-03-01' }), at('08:00'))).toBeDefined()
    expect(listDue(of({}), at('08:00'))).toBeUndefined()
  })
})
