import { z } from 'zod'
import type { Person } from '../chart/roster.ts'
import { colleaguesFor, isOnList } from '../rules/hand-over.ts'
import { may, notYours } from '../rules/permissions.ts'
import { requestActions } from './ask-correction.ts'
import { callMessage, closeModal, handOverModal } from './call.ts'
import { chartActions } from './chart-actions.ts'
import { clinicActions } from './clinic-actions.ts'
import { openCheckIn, openSession } from './commands.ts'
import { callerNow, type Doorway, handIn, personAt } from './door.ts'
import { aboutFrom } from './form.ts'
import { type Pressed, refuse, replace, say, showForm } from './pressed.ts'
import { sendRecord } from './record.ts'
import { showMore } from './session-more.ts'
import type { Command } from './shown.ts'

/** What can be pressed. */
export const actions = {
  'open-check-in': opens(openCheckIn),
  'open-session': opens(openSession),
  'more-session': showMore,
  'skip-run': onSkipRun,
  'my-record': sendRecord,
  acknowledge: onAcknowledge,
  'open-close': onOpenClose,
  'open-hand-over': onOpenHandOver,
  ...chartActions,
  ...requestActions,
  ...clinicActions,
} as const satisfies Record<string, (doorway: Doorway, person: Person, pressed: Pressed) => Promise<void>>

const RunValue = z.object({ athlete: z.string(), day: z.string() })
const CallValue = z.object({ athlete: z.string(), escalation: z.string() })

/** What nobody whom the clinic knows is kept from when the workspace cannot be asked who they are. */
const inNeed = new Set<string>([
  'acknowledge',
  'open-close',
  'open-check-in',
] satisfies (keyof typeof actions)[])

export function onAction(doorway: Doorway, name: keyof typeof actions) {
  const action = actions[name]
  return async (pressed: Pressed): Promise<void> => {
    const person = await personAt(doorway, pressed.body.user.id, inNeed.has(name) ? 'admit' : 'refuse')
    return 'refused' in person ? refuse(pressed, person) : action(doorway, person, pressed)
  }
}

function opens(command: Command) {
  return async (doorway: Doorway, person: Person, pressed: Pressed): Promise<void> => {
    await pressed.ack()
    const shown = await command(doorway, person, '')
    if ('modal' in shown) await showForm(pressed, shown.modal)
    else await say(pressed, shown.text)
  }
}

async function onSkipRun(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(RunValue, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const outcome = await handIn(doorway, person, { kind: 'run-skipped', ...about })
  if ('refused' in outcome) return refuse(pressed, outcome)
  await pressed.ack()
  await say(pressed, `Written down: no run on ${about.day}.`)
}

/** Written down before the platform hears of it: a press that was answered is a call that somebody has. */
async function onAcknowledge(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const { ack, action } = pressed
  const about = aboutFrom(CallValue, action.value)
  if ('refused' in about) return refuse(pressed, about)
  const outcome = await handIn(doorway, person, { kind: 'call-acknowledged', ...about })
  if ('refused' in outcome) return refuse(pressed, outcome)
  await ack()
  const escalation = outcome.chart.escalations.find((e) => e.id === about.escalation)
  const team = await doorway.desk.team()
  if (escalation)
    await replace(pressed, callMessage(outcome.chart, escalation, { to: person.id, entry: undefined }, team))
}

async function onOpenClose(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(CallValue, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const chart = await doorway.desk.charts.read(about.athlete)
  if (!may(await callerNow(doorway, person), 'escalation-closed', chart))
    return refuse(pressed, notYours('escalation-closed'))
  await pressed.ack()
  const view = closeModal(chart, about.escalation, await doorway.desk.team())
  await showForm(pressed, view)
}

async function onOpenHandOver(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(CallValue, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const { desk } = doorway
  const chart = await desk.charts.read(about.athlete)
  const escalation = chart.escalations.find((e) => e.id === about.escalation)
  if (
    !escalation ||
    !isOnList(escalation, person.id) ||
    !may(await callerNow(doorway, person), 'handed-over', chart)
  )
    return refuse(pressed, notYours('handed-over'))
  await pressed.ack()
  const team = await desk.team()
  const colleagues = colleaguesFor(escalation, person.id, team, desk.clock.now()).filter(
    (c) => c.id !== chart.athlete,
  )
  if (colleagues.length === 0) return say(pressed, 'There is no colleague to hand it over to.')
  const view = handOverModal(chart, escalation, colleagues, team)
  await showForm(pressed, view)
}
