import { z } from 'zod'
import {
  AmendmentRequest,
  AmendmentRequestAnswered,
  AmendmentRequestExtended,
  DisagreementStated,
} from '../chart/amend-request.ts'
import { CheckIn } from '../chart/check-in.ts'
import { Clearance, HoldLifted } from '../chart/clearance.ts'
import { ClinicSettings } from '../chart/clinic-settings.ts'
import { CriteriaSigned } from '../chart/criteria.ts'
import { Day } from '../chart/day.ts'
import { Enrolment, Episode } from '../chart/enrolment.ts'
import { EscalationClosed, HandedOver } from '../chart/escalation.ts'
import { ExerciseDone } from '../chart/exercise.ts'
import { Exported } from '../chart/exported.ts'
import { FamilySettings } from '../chart/family.ts'
import { LadderWish } from '../chart/ladder-wish.ts'
import { Measure } from '../chart/measure.ts'
import { PlanSigned } from '../chart/plan.ts'
import { Programme } from '../chart/programme.ts'
import { Review } from '../chart/review.ts'
import { Cover, Person } from '../chart/roster.ts'
import { RunSkipped, SessionDone } from '../chart/session.ts'
import { PersonId } from '../chart/signing.ts'

/** What the desk adds when it signs; a submitter never chooses these. */
const bySigning = { id: true, author: true, recordedAt: true } as const

/** What an athlete answers in the morning. */
export const Answers = CheckIn.omit({ ...bySigning, athlete: true, kind: true, day: true, heard: true })
export type Answers = z.infer<typeof Answers>

/** Everything that a person can hand in about an athlete. Parsed once, at the door. */
export const Submission = z.discriminatedUnion('kind', [
  Enrolment.omit(bySigning),
  Episode.omit(bySigning),
  z.object({
    kind: z.literal('plan-signed'),
    athlete: PersonId,
    /** `id@version` of a ladder in the library, or the wish from which the rules build one (D20). */
    ladder: z.union([z.string(), z.strictObject({ built: LadderWish })]),
    startRung: PlanSigned.shape.startRung,
    days: PlanSigned.shape.days,
    ceiling: PlanSigned.shape.ceiling,
    /** Only what differs from the defaults of the tissue. */
    settings: FamilySettings.partial().optional(),
    /** `id@version` of an exercise programme, or the programme itself. */
    programme: z.union([z.string(), Programme]).optional(),
  }),
  z.object({ kind: z.literal('check-in'), athlete: PersonId, day: Day, answers: Answers }),
  /** A plain message to the bot, by the stamp that the platform gave it. */
  z.object({
    kind: z.literal('typed-message'),
    athlete: PersonId,
    ts: z.string().regex(/^\d{1,20}\.\d{1,20}$/),
    words: z.string().max(40_000),
  }),
  SessionDone.omit({ ...bySigning, about: true, rung: true, heard: true }),
  RunSkipped.omit(bySigning),
  ExerciseDone.omit({ ...bySigning, heard: true }),
  Measure.omit(bySigning),
  /** The lines are read from the chart at signing; a submitter cannot say that they are met. */
  CriteriaSigned.omit({ ...bySigning, lines: true, against: true }),
  Review.omit(bySigning),
  Clearance.omit(bySigning),
  z.object({ kind: z.literal('hold'), athlete: PersonId, words: z.string().min(1).max(3000) }),
  HoldLifted.omit(bySigning),
  z.object({ kind: z.literal('call-acknowledged'), athlete: PersonId, escalation: z.string() }),
  HandedOver.omit(bySigning),
  EscalationClosed.omit(bySigning),
  z.object({
    kind: z.literal('amendment'),
    athlete: PersonId,
    strikes: z.string(),
    words: z.string().min(1).max(3000),
  }),
  AmendmentRequest.omit(bySigning),
  AmendmentRequestExtended.omit(bySigning),
  AmendmentRequestAnswered.omit(bySigning),
  DisagreementStated.omit(bySigning),
  Exported.omit({ ...bySigning, chartLength: true }),
])
export type Submission = z.infer<typeof Submission>

/** What is handed in about the clinic itself: by its lead, and a cover also by whoever will be away. */
export const ClinicSubmission = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('person'), person: Person }),
  z.object({ kind: z.literal('place'), place: z.literal('coaches'), channel: z.string().min(1).max(40) }),
  z.object({ kind: z.literal('cover'), ...Cover.shape }),
  z.object({ kind: z.literal('on-call'), person: PersonId, from: Day, until: Day }),
  z.object({ kind: z.literal('closed'), from: Day, until: Day, words: z.string().max(100) }),
  z.object({ kind: z.literal('withdrawn'), withdraws: z.string() }),
  z.object({ kind: z.literal('settings'), settings: ClinicSettings }),
])
export type ClinicSubmission = z.infer<typeof ClinicSubmission>
