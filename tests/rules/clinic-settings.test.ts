import { describe, expect, test } from 'vitest'
import { type ClinicSettings, settingsIn } from '../../src/chart/clinic-settings.ts'
import { clinicNow, settingsFault, tightened } from '../../src/rules/clinic-settings.ts'
import { ClinicSubmission } from '../../src/rules/submissions.ts'
import { library } from './life.ts'

const file = library.clinic
const base = settingsIn(file)
const fault = (chosen: ClinicSettings) => settingsFault(file, chosen)?.field?.split('.').at(-1)

describe('what stands in clinic.json may be tightened and never loosened', () => {
  for (const { name, tighter } of tightened)
    test(`${name}: as it stands it is taken, one step looser it is refused at its field`, () => {
      const looser = tighter === 'less' ? base[name] + 1 : base[name] - 1
      expect(fault({ [name]: base[name] })).toBeUndefined()
      expect(fault({ [name]: looser })).toBe(name)
    })

  test('the twelve numbers and the two quiet hours are all that a lead can set', () => {
    expect([...tightened.map(({ name }) => name), 'quietFrom', 'quietUntil'].toSorted()).toEqual(
      Object.keys(base).toSorted(),
    )
  })

  test('quiet hours may be shorter at either end, past midnight too, never longer', () => {
    expect(base).toMatchObject({ quietFrom: '21:00', quietUntil: '06:00' })
    expect(fault({ quietFrom: '22:30' })).toBeUndefined()
    expect(fault({ quietUntil: '05:00' })).toBeUndefined()
    expect(fault({ quietFrom: '00:30', quietUntil: '05:00' })).toBeUndefined()
    expect(fault({ quietFrom: '20:59' })).toBe('quietFrom')
    expect(fault({ quietUntil: '06:01' })).toBe('quietUntil')
    expect(fault({ quietFrom: '05:00', quietUntil: '22:00' })).toBe('quietFrom')
    expect(fault({ quietFrom: '05:00', quietUntil: '05:00' })).toBe('quietUntil')
  })

  test('one is not tightened so that it undoes another', () => {
    expect(fault({ cutOffMinutes: 90 })).toBe('cutOffMinutes')
    expect(fault({ cutOffMinutes: 90, remindMinutes: 89 })).toBeUndefined()
    expect(fault({ emergencyCloseMinutes: 9 })).toBe('emergencyCloseMinutes')
    expect(fault({ emergencyCloseMinutes: 9, emergencyAckMinutes: 9 })).toBeUndefined()
    expect(fault({ urgentCloseMinutes: 59 })).toBe('urgentCloseMinutes')
  })

  test('past the rails that were shipped nothing is even understood', () => {
    const handed = (settings: object) => ClinicSubmission.safeParse({ kind: 'settings', settings }).success
    expect(handed({ emergencyAckMinutes: 10 })).toBe(true)
    expect(handed({ emergencyAckMinutes: 11 })).toBe(false)
    expect(handed({ surgeryWeeks: 7 })).toBe(false)
    expect(handed({ timeZone: 'UTC' })).toBe(false)
  })
})

describe('the clinic as it stands', () => {
  test('without a choice it is the file itself', () => expect(clinicNow(file, {})).toBe(file))

  test('with every setting tightened each stands where the rules read it', () => {
    const all: ClinicSettings = {
      emergencyAckMinutes: 5,
      emergencyCloseMinutes: 30,
      urgentAckMinutes: 20,
      urgentCloseMinutes: 600,
      backOnListMinutes: 10,
      remindMinutes: 45,
      cutOffMinutes: 120,
      missedDays: 1,
      surgeryWeeks: 12,
      quietFrom: '22:00',
      quietUntil: '05:30',
      answerDays: 30,
      extensionDays: 10,
      keepYears: 20,
    }
    const now = clinicNow(file, all)
    expect(settingsIn(now)).toEqual(all)
    expect(now.calls.emergency.ackWithinMinutes).toBe(5)
    expect({ ...now, calls: 0, checkIn: 0, quietHours: 0, record: 0 }).toEqual({
      ...file,
      calls: 0,
      checkIn: 0,
      quietHours: 0,
      record: 0,
    })
    expect(now.checkIn.noteAfterMissedDaysAtRisk).toBe(file.checkIn.noteAfterMissedDaysAtRisk)
    expect(now.record.law).toBe(file.record.law)
  })

  test('of an older choice and a file that was made stricter since, the tighter holds', () => {
    const stricter = {
      ...file,
      calls: { ...file.calls, urgent: { ackWithinMinutes: 15, closeWithinMinutes: 60 } },
    }
    const now = clinicNow(stricter, { urgentAckMinutes: 30, surgeryWeeks: 10 })
    expect(now.calls.urgent.ackWithinMinutes).toBe(15)
    expect(now.checkIn.surgeryQuestionsWeeks).toBe(10)
    const night = { ...file, quietHours: { from: '23:00', until: '05:00' } }
    expect(clinicNow(night, { quietFrom: '22:00' }).quietHours).toEqual(night.quietHours)
  })
})
