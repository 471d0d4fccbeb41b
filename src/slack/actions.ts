import type { AllMiddlewareArgs, BlockButtonAction, SlackActionMiddlewareArgs } from '@slack/bolt'
import { z } from 'zod'
import type { Person } from '../chart/roster.ts'
import type { Refusal } from '../rules/decision.ts'
import { colleaguesFor, isOnList } from '../rules/hand-over.ts'
import { may, notYours } from '../rules/permissions.ts'
import { callMessage, closeModal, handOverModal } from './call.ts'
import { type Command, onlyYou, openCheckIn, openSession } from './commands.ts'
import { callerOf, type Doorway, handIn, personAt } from './door.ts'
import { aboutFrom } from './form.ts'

type Pressed = SlackActionMiddlewareArgs<BlockButtonAction> & AllMiddlewareArgs

/** What can be pressed. */
export const actions = {
  'open-check-in': opens(openCheckIn),
  'open-session': opens(openSession),
  acknowledge: onAcknowledge,
  'open-close': onOpenClose,
  'open-hand-over': onOpenHandOver,
} as const satisfies Record<string, (doorway: Doorway, person: Person, pressed: Pressed) => Promise<void>>

const CallValue = z.object({ athlete: z.string(), escalation: z.string() })

export function onAction(doorway: Doorway, action: (typeof actions)[keyof typeof actions]) {
  return async (pressed: Pressed): Promise<void> => {
    const person = await personAt(doorway, pressed.body.user.id)
    return 'refused' in person ? refuse(pressed, person) : action(doorway, person, pressed)
  }
}

function opens(command: Command) {
  return async (doorway: Doorway, person: Person, { ack, body, client, respond }: Pressed): Promise<void> => {
    await ack()
    const shown = await command(doorway, person)
    if ('modal' in shown) await client.views.open({ trigger_id: body.trigger_id, view: shown.modal })
    else await respond(onlyYou(shown.text))
  }
}

/** Written down before the platform hears of it: a press that was answered is a call that somebody has. */
async function onAcknowledge(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const { ack, action, respond } = pressed
  const about = aboutFrom(CallValue, action.value)
  if ('refused' in about) return refuse(pressed, about)
  const outcome = await handIn(doorway, person, { kind: 'call-acknowledged', ...about })
  if ('refused' in outcome) return refuse(pressed, outcome)
  await ack()
  const escalation = outcome.chart.escalations.find((e) => e.id === about.escalation)
  const team = await doorway.desk.team()
  if (escalation)
    await respond({
      replace_original: true,
      ...callMessage(outcome.chart, escalation, { to: person.id, entry: undefined }, team),
    })
}

async function onOpenClose(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(CallValue, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const chart = await doorway.desk.charts.read(about.athlete)
  if (!may(callerOf(person), 'escalation-closed', chart))
    return refuse(pressed, notYours('escalation-closed'))
  await pressed.ack()
  const view = closeModal(chart, about.escalation, await doorway.desk.team())
  await pressed.client.views.open({ trigger_id: pressed.body.trigger_id, view })
}

async function onOpenHandOver(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(CallValue, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const { desk } = doorway
  const chart = await desk.charts.read(about.athlete)
  const escalation = chart.escalations.find((e) => e.id === about.escalation)
  if (!escalation || !isOnList(escalation, person.id) || !may(callerOf(person), 'handed-over', chart))
    return refuse(pressed, notYours('handed-over'))
  await pressed.ack()
  const team = await desk.team()
  const colleagues = colleaguesFor(escalation, person.id, team, desk.clock.now()).filter(
    (c) => c.id !== chart.athlete,
  )
  if (colleagues.length === 0)
    return void (await pressed.respond(onlyYou('There is no colleague to hand it over to.')))
  const view = handOverModal(chart, escalation, colleagues, team)
  await pressed.client.views.open({ trigger_id: pressed.body.trigger_id, view })
}

async function refuse({ ack, respond }: Pressed, { words }: Refusal): Promise<void> {
  await ack()
  await respond(onlyYou(words))
}
