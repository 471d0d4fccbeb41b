import { z } from 'zod'
import { WallTime, Weekday, Zone } from './day.ts'
import { RecordSettings } from './record-settings.ts'
import { PersonId } from './signing.ts'

/** Working hours on the wall of whoever keeps them. */
export const Hours = z.strictObject({ days: z.array(Weekday).min(1), from: WallTime, until: WallTime })
export type Hours = z.infer<typeof Hours>

/** The clinic's standing settings, from shared/clinic.json. */
export const Clinic = z.strictObject({
  name: z.string().min(1),
  timeZone: Zone,
  /** What an athlete dials in an emergency, where the clinic is. */
  emergencyNumber: z.string().min(2).max(20),
  /** When people are here unless their own hours say otherwise. Outside them an urgent call goes to whoever is on call. */
  hours: z.array(Hours).min(1),
  checkIn: z.strictObject({
    /** The one reminder, this long after the prompt. */
    remindAfterMinutes: z.number().int().min(10).max(360),
    /** No answer this long after the prompt is written down as missed. */
    cutOffAfterMinutes: z.number().int().min(30).max(720),
    /** Days in a row without an answer after which the therapist hears of it: may be fewer, never more. */
    noteAfterMissedDays: z.number().int().min(1).max(2),
    /** The same, soon after surgery or with a hold or an open call. */
    noteAfterMissedDaysAtRisk: z.number().int().min(1).max(1),
    /** Fever, wound, calf: asked this long after surgery. Longer if the clinic likes, never shorter (septic-knee). */
    surgeryQuestionsWeeks: z.number().int().min(8).max(52),
  }),
  /** May be tightened, never loosened: the maxima are the rails this was shipped with (common practice). */
  calls: z.strictObject({
    emergency: CallClock(10, 60),
    urgent: CallClock(60, 1440),
    /** After a reminder, this long until the call goes back on the list. */
    backOnListAfterMinutes: z.number().int().min(1).max(30),
  }),
  /** Called after everybody else, and by whom an alarm that fails is heard. Without it nothing starts. */
  lastResort: z.strictObject({ person: PersonId, phone: z.string().min(3).max(40) }),
  /** Mood, eating and self-harm: the licensed person who hears of it, and the line an athlete can ring now. */
  support: z.strictObject({
    licensed: PersonId,
    crisisLine: z.strictObject({ name: z.string().min(1).max(60), number: z.string().min(3).max(40) }),
  }),
  /** On each person's own wall; holds back everything but calls. */
  quietHours: z.strictObject({ from: WallTime, until: WallTime }),
  /** When the coaches' list is posted, on the clinic's wall. */
  listAt: WallTime,
  /** What the law of the place asks of the record. */
  record: RecordSettings.prefault({}),
  treadmill: z.strictObject({
    bodyWeightPct: z.strictObject({
      low: z.number().int().min(1),
      high: z.number().int().max(100),
      step: z.number().positive(),
    }),
    /** The step of a setting is what the machine's keys can set; absent: any value. */
    speedMps: z.strictObject({
      low: z.number().min(0),
      high: z.number().positive(),
      step: z.number().positive().optional(),
    }),
    inclinePct: z.strictObject({ low: z.number(), high: z.number(), step: z.number().positive().optional() }),
  }),
})
export type Clinic = z.infer<typeof Clinic>

/** The next person is called when nobody has acknowledged in time; whoever has it is reminded when it is not closed in time. */
function CallClock(mostToAck: number, mostToClose: number) {
  return z.strictObject({
    ackWithinMinutes: z.number().int().min(1).max(mostToAck),
    closeWithinMinutes: z.number().int().min(5).max(mostToClose),
  })
}
