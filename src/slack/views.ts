import { z } from 'zod'
import { amendRequestRead, disagreeRead } from './amend-request.ts'
import { closingFrom, handOverFrom } from './call.ts'
import { caseRead } from './case.ts'
import { checkInFrom, contradiction } from './check-in.ts'
import { clearanceRead } from './clearance.ts'
import { criteriaRead } from './criteria.ts'
import { enrolRead } from './enrol.ts'
import { exerciseRead } from './exercise.ts'
import { holdRead, liftRead } from './hold.ts'
import { measureRead } from './measure.ts'
import { channelRead, personRead } from './people.ts'
import { planRead } from './plan.ts'
import { type Reading, reads } from './reading.ts'
import { closedRead, coverRead, onCallRead } from './rota.ts'
import { sessionFrom } from './session.ts'
import { strikeRead } from './strike.ts'

const DayForm = z.object({ athlete: z.string(), day: z.string() })
const SessionForm = DayForm.extend({ inclinesPct: z.array(z.number()).min(1).max(10).default([0]) })
const CallForm = z.object({ athlete: z.string(), escalation: z.string() })
const Confirmed = z.object({ hands: z.array(z.unknown()) })

/** What can be sent in. */
export const views = {
  'check-in': reads(DayForm, async (_, form, of) => {
    return contradiction(form) ?? { hands: [checkInFrom(form, of.athlete, of.day)] }
  }),
  session: reads(SessionForm, async (_, form, of) => ({ hands: [sessionFrom(form, of)] })),
  'close-call': reads(CallForm, async ({ doorway }, form, of) => ({
    hands: closingFrom(form, await doorway.desk.charts.read(of.athlete), of.escalation),
  })),
  'hand-over-call': reads(CallForm, async (_, form, of) => ({
    hands: [handOverFrom(form, of.athlete, of.escalation)],
  })),
  enrol: enrolRead,
  case: caseRead,
  plan: planRead,
  clearance: clearanceRead,
  hold: holdRead,
  'lift-hold': liftRead,
  measure: measureRead,
  exercise: exerciseRead,
  criteria: criteriaRead,
  strike: strikeRead,
  'amend-request': amendRequestRead,
  disagree: disagreeRead,
  person: personRead,
  channel: channelRead,
  cover: coverRead,
  'on-call': onCallRead,
  closed: closedRead,
  confirmed: reads(Confirmed, async (_, __, { hands }) => ({ hands, closesAll: true })),
} as const satisfies Record<string, Reading>

/** What nobody whom the clinic knows is kept from when the workspace cannot be asked who they are. */
export const inNeed: ReadonlySet<string> = new Set<keyof typeof views>(['check-in', 'close-call', 'hold'])
