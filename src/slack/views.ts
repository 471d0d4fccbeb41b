import type { AllMiddlewareArgs, SlackViewMiddlewareArgs, ViewSubmitAction } from '@slack/bolt'
import { z } from 'zod'
import type { Refusal } from '../rules/decision.ts'
import { closingFrom, handOverFrom } from './call.ts'
import { checkInFrom, contradiction } from './check-in.ts'
import { type Doorway, handIn, personAt } from './door.ts'
import { aboutFrom, errorsFor, type Form, readForm } from './form.ts'
import { sessionFrom } from './session.ts'

const DayForm = z.object({ athlete: z.string(), day: z.string() })
const CallForm = z.object({ athlete: z.string(), escalation: z.string() })

/** What a form that was sent in asks of the desk: submissions, in order, or a refusal at a field. */
type Reading = (doorway: Doorway, form: Form, about: string) => Promise<readonly unknown[] | Refusal>

/** What can be sent in. */
export const views = {
  'check-in': async (_, form, about) => {
    const of = aboutFrom(DayForm, about)
    return 'refused' in of ? of : (contradiction(form) ?? [checkInFrom(form, of.athlete, of.day)])
  },
  session: async (_, form, about) => {
    const of = aboutFrom(DayForm, about)
    return 'refused' in of ? of : [sessionFrom(form, of.athlete, of.day)]
  },
  'close-call': async (doorway, form, about) => {
    const of = aboutFrom(CallForm, about)
    return 'refused' in of ? of : closingFrom(form, await doorway.desk.charts.read(of.athlete), of.escalation)
  },
  'hand-over-call': async (_, form, about) => {
    const of = aboutFrom(CallForm, about)
    return 'refused' in of ? of : [handOverFrom(form, of.athlete, of.escalation)]
  },
} as const satisfies Record<string, Reading>

/** The form closes only when everything is on disk; a refusal leaves it open with what was typed. */
export function onView(doorway: Doorway, reading: Reading) {
  return async ({
    ack,
    view,
    body,
  }: SlackViewMiddlewareArgs<ViewSubmitAction> & AllMiddlewareArgs): Promise<void> => {
    const refuse = (refusal: Refusal) => ack(errorsFor(refusal, view))
    const person = await personAt(doorway, body.user.id)
    if ('refused' in person) return refuse(person)
    const submissions = await reading(doorway, readForm(view.state.values), view.private_metadata)
    if ('refused' in submissions) return refuse(submissions)
    for (const submission of submissions) {
      const outcome = await handIn(doorway, person, submission)
      if ('refused' in outcome) return refuse(outcome)
    }
    await ack()
  }
}
