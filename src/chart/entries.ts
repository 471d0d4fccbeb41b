import { z } from 'zod'
import { Amendment } from './amendment.ts'
import { CheckIn, CheckInMissed, Prompt } from './check-in.ts'
import { Clearance, ClearanceLapsed, Hold, HoldLifted } from './clearance.ts'
import { CriteriaSigned } from './criteria.ts'
import { Enrolment, Episode } from './enrolment.ts'
import { CallAcknowledged, CallMade, EscalationClosed, EscalationOpened } from './escalation.ts'
import { ExerciseDone } from './exercise.ts'
import { Measure } from './measure.ts'
import { PlanSigned } from './plan.ts'
import { Prescription } from './prescription.ts'
import { Review } from './review.ts'
import { RunSkipped, SessionDone } from './session.ts'

/** Everything that can stand in a chart. */
export const Entry = z.discriminatedUnion('kind', [
  Enrolment,
  Episode,
  PlanSigned,
  Prompt,
  CheckIn,
  CheckInMissed,
  Prescription,
  SessionDone,
  RunSkipped,
  ExerciseDone,
  Measure,
  CriteriaSigned,
  Review,
  Clearance,
  ClearanceLapsed,
  Hold,
  HoldLifted,
  EscalationOpened,
  CallMade,
  CallAcknowledged,
  EscalationClosed,
  Amendment,
])
export type Entry = z.infer<typeof Entry>
export type EntryOf<K extends Entry['kind']> = Extract<Entry, { kind: K }>
