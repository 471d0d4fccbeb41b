import { z } from 'zod'
import { type Chart, prescriptionOf, sessionOf } from '../chart/chart.ts'
import { type Day, dayAt } from '../chart/day.ts'
import { requestRead } from './amend-request.ts'
import { askCorrectionRead, disagreeRead } from './ask-correction.ts'
import type { Modal } from './blocks.ts'
import { buildRead } from './build-ladder.ts'
import { closingFrom, handOverFrom } from './call.ts'
import { caseRead } from './case.ts'
import { checkInFrom, contradiction } from './check-in.ts'
import { clearanceRead } from './clearance.ts'
import { settingsRead } from './clinic-settings.ts'
import { criteriaRead } from './criteria.ts'
import type { At } from './door.ts'
import { enrolRead } from './enrol.ts'
import { exerciseRead } from './exercise.ts'
import { exportRead } from './export.ts'
import { holdRead, liftRead } from './hold.ts'
import { measureRead } from './measure.ts'
import { channelRead, personRead } from './people.ts'
import { planRead } from './plan.ts'
import { type Reading, reads } from './reading.ts'
import { reviewRead } from './review.ts'
import { closedRead, coverRead, onCallRead } from './rota.ts'
import { sessionFrom, sessionModal } from './session.ts'
import { skippedRead } from './skipped.ts'
import { staffSessionRead } from './staff-session.ts'
import { strikeRead } from './strike.ts'

const DayForm = z.object({ athlete: z.string(), day: z.string() })
const SessionForm = DayForm.extend({
  inclinesPct: z.array(z.number()).min(1).max(10).default([0]),
  ground: z.boolean().default(false),
})
const CallForm = z.object({ athlete: z.string(), escalation: z.string() })
const Confirmed = z.object({ hands: z.array(z.unknown()) })

/** What can be sent in. */
export const views = {
  'check-in': reads(DayForm, async (_, form, of) => {
    return contradiction(form) ?? { hands: [checkInFrom(form, of.athlete, of.day)] }
  }),
  session: reads(SessionForm, async (at, form, of) => {
    const session = sessionFrom(form, of)
    return 'refused' in session
      ? session
      : { hands: [session], next: async (chart) => nextRun(at, chart, of.day) }
  }),
  'close-call': reads(CallForm, async ({ doorway }, form, of) => ({
    hands: closingFrom(form, await doorway.desk.charts.read(of.athlete), of.escalation),
  })),
  'hand-over-call': reads(CallForm, async (_, form, of) => ({
    hands: [handOverFrom(form, of.athlete, of.escalation)],
  })),
  enrol: enrolRead,
  case: caseRead,
  plan: planRead,
  'build-ladder': buildRead,
  clearance: clearanceRead,
  hold: holdRead,
  'lift-hold': liftRead,
  measure: measureRead,
  exercise: exerciseRead,
  'staff-session': staffSessionRead,
  'run-skipped': skippedRead,
  export: exportRead,
  criteria: criteriaRead,
  strike: strikeRead,
  review: reviewRead,
  'amend-request': requestRead,
  'ask-correction': askCorrectionRead,
  disagree: disagreeRead,
  person: personRead,
  channel: channelRead,
  cover: coverRead,
  'on-call': onCallRead,
  closed: closedRead,
  settings: settingsRead,
  confirmed: reads(Confirmed, async (_, __, { hands }) => ({ hands, closesAll: true })),
} as const satisfies Record<string, Reading>

/** After a run of an earlier day comes today's, when it was prescribed and may have been run already. */
async function nextRun({ doorway }: At, chart: Chart | undefined, logged: Day): Promise<Modal | undefined> {
  const today = dayAt(doorway.desk.clock.now(), chart?.enrolment?.timeZone ?? doorway.desk.clinic.timeZone)
  if (!chart || logged >= today || sessionOf(chart, today) || prescriptionOf(chart, today)?.what !== 'run')
    return undefined
  return sessionModal(chart, today)
}

/** What nobody whom the clinic knows is kept from when the workspace cannot be asked who they are. */
export const inNeed: ReadonlySet<string> = new Set<keyof typeof views>(['check-in', 'close-call', 'hold'])
