import { z } from 'zod'
import { Clinic } from './clinic.ts'
import { RecordSettings } from './record-settings.ts'

const { checkIn, calls, quietHours } = Clinic.shape
const { emergency, urgent } = calls.shape
const { answerWithinDays, extensionDays, keepYears } = RecordSettings.shape

const whole = z.strictObject({
  emergencyAckMinutes: emergency.shape.ackWithinMinutes,
  emergencyCloseMinutes: emergency.shape.closeWithinMinutes,
  urgentAckMinutes: urgent.shape.ackWithinMinutes,
  urgentCloseMinutes: urgent.shape.closeWithinMinutes,
  backOnListMinutes: calls.shape.backOnListAfterMinutes,
  remindMinutes: checkIn.shape.remindAfterMinutes,
  cutOffMinutes: checkIn.shape.cutOffAfterMinutes,
  missedDays: checkIn.shape.noteAfterMissedDays,
  surgeryWeeks: checkIn.shape.surgeryQuestionsWeeks,
  quietFrom: quietHours.shape.from,
  quietUntil: quietHours.shape.until,
  answerDays: answerWithinDays.unwrap(),
  extensionDays: extensionDays.unwrap(),
  keepYears: keepYears.unwrap(),
})
export type WholeSettings = z.infer<typeof whole>

/**
 * What the clinic lead tightens from chat, one flat name each, inside the rails that shared/clinic.json was shipped
 * with. Absent: as in clinic.json.
 */
export const ClinicSettings = whole.partial()
export type ClinicSettings = z.infer<typeof ClinicSettings>

/** What was chosen, with the rest as it stands in a whole. */
export function completed(base: WholeSettings, chosen: ClinicSettings): WholeSettings {
  const entries = Object.entries(base).map(([name, value]) => [
    name,
    chosen[name as keyof WholeSettings] ?? value,
  ])
  return Object.fromEntries(entries) as WholeSettings
}

/** The same of a clinic's file, complete. */
export function settingsIn({ calls, checkIn, quietHours, record }: Clinic): WholeSettings {
  return {
    emergencyAckMinutes: calls.emergency.ackWithinMinutes,
    emergencyCloseMinutes: calls.emergency.closeWithinMinutes,
    urgentAckMinutes: calls.urgent.ackWithinMinutes,
    urgentCloseMinutes: calls.urgent.closeWithinMinutes,
    backOnListMinutes: calls.backOnListAfterMinutes,
    remindMinutes: checkIn.remindAfterMinutes,
    cutOffMinutes: checkIn.cutOffAfterMinutes,
    missedDays: checkIn.noteAfterMissedDays,
    surgeryWeeks: checkIn.surgeryQuestionsWeeks,
    quietFrom: quietHours.from,
    quietUntil: quietHours.until,
    answerDays: record.answerWithinDays,
    extensionDays: record.extensionDays,
    keepYears: record.keepYears,
  }
}

/** The clinic with these in the place of its own. */
export function withSettings(clinic: Clinic, s: WholeSettings): Clinic {
  return {
    ...clinic,
    calls: {
      emergency: { ackWithinMinutes: s.emergencyAckMinutes, closeWithinMinutes: s.emergencyCloseMinutes },
      urgent: { ackWithinMinutes: s.urgentAckMinutes, closeWithinMinutes: s.urgentCloseMinutes },
      backOnListAfterMinutes: s.backOnListMinutes,
    },
    checkIn: {
      ...clinic.checkIn,
      remindAfterMinutes: s.remindMinutes,
      cutOffAfterMinutes: s.cutOffMinutes,
      noteAfterMissedDays: s.missedDays,
      surgeryQuestionsWeeks: s.surgeryWeeks,
    },
    quietHours: { from: s.quietFrom, until: s.quietUntil },
    record: {
      ...clinic.record,
      answerWithinDays: s.answerDays,
      extensionDays: s.extensionDays,
      keepYears: s.keepYears,
    },
  }
}
