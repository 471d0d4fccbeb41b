import { z } from 'zod'
import {
  AmendmentRequest,
  AmendmentRequestAnswered,
  AmendmentRequestExtended,
  AmendmentRequestReminded,
  DisagreementStated,
} from './amend-request.ts'
import { Amendment } from './amendment.ts'
import { CheckIn, CheckInMissed, CheckInReminded, Prompt } from './check-in.ts'
import { Clearance, ClearanceLapsed, Hold, HoldLifted } from './clearance.ts'
import { CriteriaSigned } from './criteria.ts'
import { Enrolment, Episode } from './enrolment.ts'
import { Erased } from './erased.ts'
import {
  Breach,
  CallAcknowledged,
  CallDelivered,
  CallFailed,
  CallMade,
  CallSent,
  EscalationClosed,
  EscalationOpened,
  EscalationUpdated,
  HandedOver,
  ReListed,
  Reminded,
} from './escalation.ts'
import { ExerciseDone } from './exercise.ts'
import { Exported } from './exported.ts'
import { Measure } from './measure.ts'
import { PlanSigned } from './plan.ts'
import { Prescription } from './prescription.ts'
import { Review } from './review.ts'
import { RunSkipped, SessionDone } from './session.ts'
import { TypedMessage } from './typed-message.ts'

/** Everything that can stand in a chart. */
export const Entry = z.discriminatedUnion('kind', [
  Enrolment,
  Episode,
  PlanSigned,
  Prompt,
  CheckInReminded,
  CheckIn,
  CheckInMissed,
  TypedMessage,
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
  EscalationUpdated,
  CallMade,
  CallSent,
  CallDelivered,
  CallFailed,
  CallAcknowledged,
  HandedOver,
  Reminded,
  ReListed,
  EscalationClosed,
  Breach,
  Amendment,
  AmendmentRequest,
  AmendmentRequestExtended,
  AmendmentRequestAnswered,
  AmendmentRequestReminded,
  DisagreementStated,
  Exported,
  Erased,
])
export type Entry = z.infer<typeof Entry>
export type EntryOf<K extends Entry['kind']> = Extract<Entry, { kind: K }>
